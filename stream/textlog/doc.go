// Package textlog reads logs that a simulator or another program wrote as text, and yields their rows as datagrams, so
// that all that reads a recording reads a log too. A log is one of these, as it is or compressed by gzip or zstd:
//
//   - rows of columns, separated by commas, semicolons, tabs, bars or spaces, below a line that names the columns;
//   - rows of columns without such a line, in the order of a map;
//   - lines of name=value pairs;
//   - JSON lines, one object per line.
//
// What a row means is said by the maps for streams of text. Columns are yielded as the text stream with labels has
// them: the names first, then the rows, with tabs between the columns. Numbers with a decimal comma get a point, and
// dates and times become seconds; all else stays as it was written, so that a map that is corrected later reads the
// same session again. JSON lines with the names of channels, pairs, and rows without names are yielded as they are.
// Other JSON objects become columns; a member of a member is named "outer.inner".
//
// A row is received when its own clock says: the time channel by the map, else a column whose name says that it is a
// time, else the rate that the user gave. Times that do not count from 1970 begin when the file was last written. A
// time that goes back, or on by more than a day, continues shortly after the row before; one that repeats is received
// at the same moment.
//
// Rows that are broken are yielded too, for the session to count. Only lines that are longer than a datagram are
// dropped here. Memory is that of one row and of the head of the file, from which all is decided.
package textlog
