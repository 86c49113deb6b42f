package textlog

import "halfturn/stream/phrase"

// An Error says what is wrong with a log, and where.
type Error struct{ Why phrase.Phrase }

// Error says it.
func (e *Error) Error() string { return e.Why.String() }

func failed(why phrase.Phrase) *Error { return &Error{why} }

// inLine says what is wrong in a line.
func inLine(line int, why phrase.Phrase) *Error {
	return failed(phrase.LogLine.Of(phrase.Int("line", line), phrase.Part("why", why)))
}

// inColumn says what is wrong in a column of a line.
func inColumn(line, column int, name string, why phrase.Phrase) *Error {
	return failed(phrase.LogColumn.Of(phrase.Int("line", line), phrase.Int("column", column),
		phrase.Name("name", name), phrase.Part("why", why)))
}
