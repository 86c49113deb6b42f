// Package change writes a logbook in its SQLite file. Every change is one transaction: made whole or not at all.
package change

import "halfturn/coach/logbook/sqlite/db"

// Changes is the part of logbook.Book that writes.
type Changes struct{ *db.File }
