// Package db keeps tables in PostgreSQL for the stores that many nodes share: connections, migrations, failures in
// words.
//
// Tables lie in a schema of their own, which is named in the search path of each connection: a pooler that hands one
// connection to several in turn must not stand between. Changes are serializable transactions: two nodes that change
// the same rows at once do so as if one came after the other, and a change that is in the way of another is made again.
// Tables are made and brought to the newest shape by whoever opens them first, behind an advisory lock.
//
// Nothing waits without bound: a connection is given up after 5 s, a change or a question after 20 s. While the server
// is away each call fails with a [halfturn/coach/logbook.Failure] that is [halfturn/coach/logbook.ErrAway]; the pool
// connects again by itself once it is back.
package db
