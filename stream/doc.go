// Package stream holds the state of a flight simulator at one moment, the sample, and the table of its channels. It is
// pure.
//
// The packages below it take a datagram to a sample: wire decodes, timebase orders, derive fills in, pipeline runs
// these one after the other. ingest has the sockets.
//
// To add a channel: a constant and a row in channel.go, whose test finds what the row lacks, and the unit conversions
// in wire/units when its unit is new. JSON lines carry it from then on; the maps and decoders that have a place for
// it name it one by one.
package stream
