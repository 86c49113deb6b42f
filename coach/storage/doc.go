// Package storage knows where the logbook and the list of people are kept: in files of a data directory, by SQLite, or
// in one database of PostgreSQL that many nodes share. [At] reads such a place from a word of a command or of a
// configuration, [Place.Open] opens both stores there, and [Move] takes everything from one place to another.
//
// A move copies the tables row by row in one transaction for each store, keys and all, and compares digests before it
// is committed: so the target has everything or nothing, and a move that was interrupted is simply made again. The
// digest of a row is SHA-256 of its table and of the names, types and values of its columns, in the order of the
// names; that of a session is the sum of the digests of the rows that belong to it, modulo 2^256, so that it depends on
// no order. Texts are compared as PostgreSQL takes them, in UTF-8 without zero bytes.
package storage
