table small.xml
