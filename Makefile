# Two commands do all there is to do: make demo, make test. Each sets up what it needs. make release builds the archives
# that are downloaded.

.PHONY: demo test release setup format checks go pure clocks serial technology raced narrow pages
.PHONY: programs servers conformance browser engines test-cluster test-simulator bench bench-keep soak load mutation

# The page opens in a browser and the built-in aircraft keeps flying until Ctrl-C, which is no error: go run would make one of it.
demo:
	@command -v go >/dev/null || { echo "make: Go is not there; install Go 1.26 or later from your system's packages or go.dev" >&2; exit 1; }
	go build -o bin/halfturn ./cmd/halfturn && exec bin/halfturn demo

# Everything that must hold. A machine that is new fetches what the tests need while they are built. Nothing runs beside
# the browser tests, which are held up the easiest, also by what gives way to them. Half of the others wait more than
# they compute: what only computes runs beside those, and gives way (nice). A make older than 4 mixes their output.
#
# For tests and what they are made of, memory is cheaper than time: the garbage of a program that soon ends is left to
# lie longer (GOGC), and a program that the race detector watched ends at once. What was compiled serves every clone on
# the machine (-trimpath).
APART = $(if $(filter output-sync,$(.FEATURES)),--output-sync=target)
test: export TMPDIR = $(shell sh .ci/scratch)
test: export GORACE = atexit_sleep_ms=0
test: export GOGC = 400
test: export GOFLAGS += -trimpath
test:
	@$(MAKE) --no-print-directory -j4 $(APART) setup format programs raced servers
	$(BROWSER)
	@$(MAKE) --no-print-directory -j4 $(APART) waiting computing

.PHONY: waiting computing
waiting:
	@$(MAKE) --no-print-directory conformance
	@$(MAKE) --no-print-directory pages
	@$(MAKE) --no-print-directory clocks

computing:
	@nice -n 15 $(MAKE) --no-print-directory pure
	@nice -n 15 $(MAKE) --no-print-directory checks
	@nice -n 15 $(MAKE) --no-print-directory narrow

setup:
	@sh .ci/setup

format:
	@bad=$$(gofmt -l .ci cmd coach configs stream web); [ -z "$$bad" ] || { echo "gofmt: $$bad" >&2; exit 1; }

checks: setup format
	go vet ./... ./.ci/release ./.ci/vulnerabilities
	go vet -tags simulator ./.ci/simulator
	go tool staticcheck ./... ./.ci/release ./.ci/vulnerabilities
	go test -vet=off ./.ci/release ./.ci/vulnerabilities
	@go run ./.ci/vulnerabilities

# What only computes, on memory that no other goroutine knows, the race detector would only make slow: SQLite (C
# translated to Go, in memory of its own), and hashing. Of packages with generic code nobody may watch half: the linker
# keeps one copy of an instance, and that of sync.Map must be a watched one. The checks of unsafe pointers that come with
# the detector cost a twelfth, and no code of ours that runs here has any.
UNWATCHED = -gcflags=all=-d=checkptr=0 $(patsubst %,-gcflags=%=-race=false,modernc.org/sqlite/lib modernc.org/libc golang.org/x/crypto/argon2 \
	golang.org/x/crypto/blake2b)
PURE = $(shell sed -n 's/^pure *//p' .ci/packages)
SERIAL = $(shell sed -n 's/^serial *//p' .ci/packages)
TECHNOLOGY = $(shell sed -n 's/^technology *//p' .ci/packages)

# The fuzz targets' seeds run with the tests. checks has vetted all packages, also as go test would.
go: pure clocks narrow

pure: setup
	go test -vet=off $(PURE)

# What looks at a clock or waits for somebody.
clocks: serial technology

# The first package takes as long as the others together; those of its tests that may run at once wait for processes.
serial: setup
	go test -vet=off -p 2 -parallel 4 $(SERIAL)

technology: setup
	go test -vet=off -race -p 2 $(UNWATCHED) $(TECHNOLOGY)

# What the tests with the race detector are made of.
raced:
	go build -race $(UNWATCHED) $(TECHNOLOGY)

# What reads datagrams and recordings must also hold where an int has 32 bits; an amd64 kernel runs such programs.
narrow: setup
	[ "$$(go env GOHOSTARCH)" != amd64 ] || CGO_ENABLED=0 GOARCH=386 go test -vet=off ./stream ./stream/attitude \
		./stream/capture ./stream/derive ./stream/ingest ./stream/timebase ./stream/wire/...

pages: setup
	cd web && npm run check && npm test

# The programs that the browser tests run.
programs:
	go build -o bin/ ./cmd/halfturn ./web/internal/demofeed ./web/internal/demoflights

BROWSER = cd web && HALFTURN_BUILT=yes npm run test:browser
browser: setup programs
	$(BROWSER)

engines test-cluster: export GOFLAGS += -trimpath

# What the program talks to as a cluster is tested against real servers, which the tests start themselves: go doc
# ./.ci/engines. They are a module of their own, which ./... does not reach. PostgreSQL is tested with the packages that
# talk to it.
#
# Of NATS and S3 the conformance suites are part of test, and what else takes no longer (-short). They wait for servers
# more than they compute, so that many run at once.
conformance: setup servers
	cd .ci/engines && go test -vet=off -short -parallel 8 ./flow ./s3

# What these tests are made of, and the S3 server.
servers:
	@sh .ci/engines/versitygw/build
	cd .ci/engines && go build ./...

# Not part of test: all of it, also what waits for elections after servers and nodes were killed.
engines: setup servers
	cd .ci/engines && go vet ./... && $$(cd ../.. && go tool -n staticcheck) ./...
	cd .ci/engines && go test -vet=off -parallel 8 ./...

# Not part of test: nodes, NATS servers, PostgreSQL and an S3 server are killed, frozen and cut off while stations fly:
# go doc ./.ci/engines/story. Eight minutes of two idle cores.
#	make test-cluster STATIONS=300 RATE=60 VIEWERS=60
RATE ?= 10
test-cluster: STATIONS := $(if $(filter-out 100,$(STATIONS)),$(STATIONS),12)
test-cluster: VIEWERS := $(if $(filter-out 200,$(VIEWERS)),$(VIEWERS),24)
test-cluster: setup servers
	cd .ci/engines && go test ./story -run Story -count=1 -timeout 15m -v -stations $(STATIONS) -rate $(RATE) \
		-viewers $(VIEWERS)

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
