// Package engines tests what the program talks to as a cluster against the real servers, which the tests start by
// themselves: NATS in package flow, an S3 store in package s3, and all three in package check.
//
// It is a module of its own, so that servers are none of the program's dependencies: in its folder, go test ./... runs
// the tests, and make engines from the root. make test runs those of packages flow and s3 that take no longer than the
// conformance suites do (go test -short). Servers that have to be killed or frozen run as processes: the test binary
// again, told by its environment what it is. The S3 server is a program of another module, versitygw, which is built
// once into bin.
package engines
