suspects small.xml --seen light-bright --reading 'pressure house.gas @ 1s = 1743.6'
