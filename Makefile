# Two commands do all there is to do: make demo, make test. Each sets up what it needs. make release builds the archives
# that are downloaded.

.PHONY: demo test release setup checks go pages browser engines test-simulator bench bench-keep soak load mutation

# The page opens in a browser and the built-in aircraft keeps flying until Ctrl-C, which is no error: go run would make one of it.
demo:
	@command -v go >/dev/null || { echo "make: Go is not there; install Go 1.26 or later from your system's packages or go.dev" >&2; exit 1; }
	go build -o bin/halfturn ./cmd/halfturn && exec bin/halfturn demo

# Everything that must hold: in under ten minutes on two idle cores.
test: checks go pages browser

setup:
	@sh .ci/setup

checks: setup
	@bad=$$(gofmt -l .ci cmd coach configs stream web); [ -z "$$bad" ] || { echo "gofmt: $$bad" >&2; exit 1; }
	go vet ./... ./.ci/release ./.ci/vulnerabilities
	go vet -tags simulator ./.ci/simulator
	go tool staticcheck ./... ./.ci/release ./.ci/vulnerabilities
	go test ./.ci/release ./.ci/vulnerabilities
	@go run ./.ci/vulnerabilities

# SQLite is C translated to Go, in memory of its own that the race detector does not know: there it would only be slow.
UNWATCHED = -gcflags=modernc.org/sqlite/lib=-race=false -gcflags=modernc.org/libc=-race=false

# The fuzz targets' seeds run with the tests. What reads datagrams and recordings must also hold where an int has 32
# bits; an amd64 kernel runs such programs. Three packages at once, for some wait for clocks more than they compute.
go: setup
	go test -p 3 $(shell sed -nE 's/^(pure|serial) +//p' .ci/packages)
	go test -race -p 3 $(UNWATCHED) $(shell sed -n 's/^technology *//p' .ci/packages)
	[ "$$(go env GOHOSTARCH)" != amd64 ] || CGO_ENABLED=0 GOARCH=386 go test ./stream ./stream/attitude \
		./stream/capture ./stream/derive ./stream/ingest ./stream/timebase ./stream/wire/...

pages: setup
	cd web && npm run check && npm test

browser: setup
	cd web && npm run test:browser

# What the program talks to as a cluster, with real servers that the tests start themselves: go doc ./.ci/engines. They
# wait for elections more than they compute, so that many run at once. A module of its own, which ./... does not reach.
engines: setup
	cd .ci/engines && go vet ./... && $$(cd ../.. && go tool -n staticcheck) ./...
	cd .ci/engines && go test -parallel 8 ./...

# The archives for Windows, macOS and Linux, and their sums, in bin/release: go doc -cmd ./.ci/release.
release:
	@command -v go >/dev/null || { echo "make: Go is not there; install Go 1.26 or later from your system's packages or go.dev" >&2; exit 1; }
	go run ./.ci/release

# Not part of test: flies a real simulator, 2 GB to fetch, and four to nine minutes.
test-simulator:
	@sh .ci/simulator/setup
	go vet -tags simulator ./.ci/simulator
	go test -tags simulator -race -count=1 -timeout 12m -v ./.ci/simulator

# Not part of test: measures what .ci/benchmarks lists, an hour of two idle cores, and compares with what bench-keep kept.
#	make bench ONLY=web/hub COUNT=6
bench:
	@ONLY='$(ONLY)' COUNT='$(COUNT)' sh .ci/bench

bench-keep:
	cp bin/bench/new.txt bin/bench/kept.txt

# The long form of a test that is part of test: flies stations with faults against the program for half an hour.
#	make soak FOR=8m STATIONS=30 SEED=7
FOR ?= 30m
STATIONS ?= 100
SEED ?= 0
soak:
	go test ./cmd/halfturn/soak -run Soak -count=1 -timeout 12h -v -for $(FOR) -stations $(STATIONS) -seed $(SEED)

# Not part of test: has a server work for more and more stations, on an idle machine, and draws how it does.
#	make load STATIONS=200,600,1000 VIEWERS=200
VIEWERS ?= 200
load: STATIONS := $(if $(filter-out 100,$(STATIONS)),$(STATIONS),100,300,600,800,1000,1200)
load:
	mkdir -p bin/load
	go test ./cmd/halfturn/load -run Load -count=1 -timeout 2h -v -stations $(STATIONS) -viewers $(VIEWERS) \
		-out $(CURDIR)/bin/load

# Not part of test: breaks the code of a package in many small ways, and tells which of them no test notices.
#	make mutation PACKAGE=./coach/callout
PACKAGE ?= ./coach/callout
mutation:
	go run github.com/go-gremlins/gremlins/cmd/gremlins@v0.6.0 unleash --workers 1 --timeout-coefficient 20 $(PACKAGE)
