// Package query reads the tables of a logbook: lists, trends, reports, models, and what a rebuild left out. Every
// answer is read in one transaction, so that it shows one state of the logbook whatever is written meanwhile.
package query

import "halfturn/coach/logbook/tables"

// Questions is the part of logbook.Book that reads.
type Questions struct{ tables.Database }
