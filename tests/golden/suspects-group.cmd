suspects small.xml --reading 'amps light @ 0s door=open; 5s = 0 A'
