// Package db opens the SQLite file of a logbook and brings it to the newest schema ("shape"). It holds what the changes
// and the queries of the engine share: transactions, times as the database has them, ids, and failures in plain words.
//
// Several programs may have the file open at once: it is journaled (WAL), and each waits ten seconds for the others.
// A file of an older shape is migrated when it is opened for writing, each step whole or not at all. A file that cannot
// be written is read in the shape it has.
package db
