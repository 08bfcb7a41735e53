module dandle

go 1.26
