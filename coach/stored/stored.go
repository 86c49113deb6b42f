// Package stored is what commands and pages do with stored sessions and recordings: find one, decide which cards
// judged, grade it again, export and print it, take it in. What is changed is changed by [archive.Archive].
package stored
