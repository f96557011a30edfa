suspects small.xml --seen light-bright
