// Package change writes the tables of a logbook. Every change is one transaction: made whole or not at all.
package change

import "halfturn/coach/logbook/tables"

// Changes is the part of logbook.Book that writes.
type Changes struct{ tables.Database }
