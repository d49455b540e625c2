module newel

go 1.26.0

require (
	github.com/BurntSushi/toml v1.6.0
	github.com/andybalholm/brotli v1.2.8
	github.com/emersion/go-ical v0.0.0-20250609112844-439c63cef608
	github.com/evanw/esbuild v0.28.2
	github.com/stretchr/testify v1.12.1
	github.com/teambition/rrule-go v1.8.2
	github.com/valyala/quicktemplate v1.8.0
	golang.org/x/net v0.62.0
	pgregory.net/rapid v1.3.0
)

require (
	github.com/valyala/bytebufferpool v1.0.0 // indirect
	go.yaml.in/yaml/v3 v3.0.5 // indirect
	golang.org/x/sys v0.49.0 // indirect
)

tool github.com/valyala/quicktemplate/qtc
