// Package phrase holds the sentences for people: a code and its arguments, and one table of the English. Command line,
// print and log show the English; the pages translate by the code, and write numbers in the units and the form of their
// reader. Pure.
//
// Each sentence is declared once (english_*.go) and used by its name, so that a sentence that is not in the table does
// not compile:
//
//	var NoSuchLeg = table.define("leg.unknown",
//		"the session has {legs:number} legs; there is none numbered {leg:number}")
//
//	return phrase.NoSuchLeg.Of(phrase.Int("legs", len(legs)), phrase.Int("leg", n))
//
// A place in a sentence names its argument and its kind: number, name (put in quotes), words (shown as they are),
// phrase (one or several, which are translated in their turn) or list (the same, joined as in "a, b and c").
//
// What a card has said is a text of the card, not a sentence of the table. With places it is a [Template], whose code
// is the text itself; without, it is a phrase without a code. The pages look both up whole, by the English of the card
// (web/testdata/texts.json lists all that are shipped); those of a user's own card stay as they are written.
//
// In JSON a phrase is {"code": …, "args": {…}, "text": the English}; one without a code, such as what an operating
// system says, is a string. A string that is read becomes the phrase of the table that would say it, if there is one:
// what earlier versions wrote as English is translated too.
package phrase
