run aged.xml --csv --do '200s oven.mode=off' --until 4min
