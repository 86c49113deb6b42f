// Package guard bounds what strangers can make the server do. Every HTTP request is read and written in pieces of
// 64 KB, each with 30 s of waiting. Expensive routes go through a gate that lets a few requests in at once. Connections
// go through a counter that limits them in total and per address. Requests are answered only under the names of this
// server, and changes are accepted only from its own pages; bodies are bounded and read strictly.
//
// Errors of handlers are written in one place, Handle. A Problem is what the client is told; any other error is logged
// and reported as an internal one.
package guard
