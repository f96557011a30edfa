check ../../diagrams/dial-four.xml ../../diagrams/board-five.xml
