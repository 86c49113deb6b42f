// Package kinds holds the kinds of check a card can ask for, one file per kind: a check.Kind that answers everything
// the program has to know about it, and the judge that measures it. A judge sees the leg moment by moment, keeps a
// bounded amount of it, and says at the end what it measured. It is pure.
//
// To add a kind, write a file with a check.Kind and its judge, and put it into the list of all kinds, where the
// handbook page and the messages about wrong cards take it from. TestKindsAnswer fails while an answer is missing or
// the kind is not in the list, and the tests of the judges fail while everyKind or everySeriesKind has no check of it.
// Nothing else in the coach, the debrief or the logbook knows kinds by name.
package kinds
