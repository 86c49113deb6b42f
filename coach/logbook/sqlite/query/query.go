// Package query reads a logbook in its SQLite file: lists, trends, reports, models, and what a rebuild left out. Every
// answer is read in one transaction, so that it shows one state of the logbook whatever is written meanwhile.
package query

import "halfturn/coach/logbook/sqlite/db"

// Questions is the part of logbook.Book that reads.
type Questions struct{ *db.File }
