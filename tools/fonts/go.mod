module scantling/tools/fonts

go 1.26
