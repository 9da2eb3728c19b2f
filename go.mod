module firstvolt

go 1.26.8

require (
	github.com/xrash/smetrics v0.0.0-20240521201337-686a1a2994c1
	gopkg.in/yaml.v3 v3.0.1
	pgregory.net/rapid v1.3.0
)
