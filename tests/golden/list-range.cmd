list pair-spark-four
