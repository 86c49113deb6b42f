// Package logbook defines what a logbook answers: the sessions that were flown, listed, filtered and summed up. It has
// the interface that an engine implements, the types of the answers, and what is computed from gradings and acts
// without asking an engine.
//
// A logbook is an index: everything in it is made from the session folders, which [halfturn/coach/archive] owns, and
// can be made from them again. No SQL and no file format shows in the interface: its verbs are those of the domain
// (begin, keep, end, act, list, trend, models, forget).
//
// Sessions, legs, remarks and students have ids that are unique without asking anyone ([halfturn/coach/ids]). What was
// stored before there were ids gets ids that follow from what is known of it, so that a folder and the index over it
// give the same ones. The name of a session's folder is its ID, its unique id is its Key.
//
// coach/logbook/sqlite is the engine; coach/logbook/booktest is the conformance suite, which a second engine only has
// to call.
package logbook
