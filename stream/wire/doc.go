// Package wire turns the datagrams of flight simulators into stream.Samples.
//
// A Reader serves one sender. It recognizes the format from the content, by the registry in formats.go; the families of
// formats are the packages below this one, and package format says what one of them is and how to add one. All
// conversion of units and signs happens there, for text and generic binary streams by maps (package mapping).
//
// Everything here is pure: no clock, no sockets, no goroutines.
package wire
