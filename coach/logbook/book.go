package logbook

import (
	"context"
	"iter"
	"time"

	"halfturn/coach/debrief"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// An Engine stores logbooks in files.
type Engine interface {
	// Open opens the book in a file, and creates one that does not exist. With check, one that was not closed properly
	// is read through for damage. The error for a damaged one is a [*Failure].
	Open(file string, check bool) (Book, error)
	// OpenReadOnly opens the book in a file that must not or cannot be changed; the error is [fs.ErrNotExist] when
	// there is none.
	OpenReadOnly(file string) (Book, error)
	// MoveAside renames a damaged file and returns its new name.
	MoveAside(file string, now time.Time) (string, error)
}

// A Book is an open logbook. It is safe for concurrent use, by several programs too. Its errors are [*NotFound] for a
// session that is not in it, [*Refused] for a question that cannot be answered, and [*Failure] for a disk that fails.
type Book interface {
	Changes
	Answers
	// Stations returns what was last chosen at each station.
	Stations(ctx context.Context) (map[string]maneuver.Choice, error)
	// RememberStation records what was chosen at a station, and who asked for it.
	RememberStation(by who.Who, station string, c maneuver.Choice, at time.Time) error
	// CourseOf returns the course that was chosen for a student, however the name is written; the zero value is none.
	CourseOf(ctx context.Context, student string) (CourseChoice, error)
	// RememberCourse records the course of a student, and who chose it.
	RememberCourse(by who.Who, student string, c CourseChoice, at time.Time) error
	// Backup writes a copy of the book, as of now, to a file that does not exist yet.
	Backup(ctx context.Context, to string) error
	// Close closes it.
	Close() error
}

// Changes enter what was written into the session folders. Each is made whole or not at all, and repeating one changes
// nothing.
type Changes interface {
	// Begin enters a session as it begins, or completes the one there is, which is then under way again.
	Begin(e *Entry) error
	// Keep enters what was flown in a session so far: its first grading.
	Keep(id string, r *debrief.Report) error
	// End enters when a session ended.
	End(id string, at time.Time) error
	// Act enters how a session stands after all its acts.
	Act(id string, s *Standing) error
	// Regrade enters another grading beside the first.
	Regrade(id string, g *Grading) error
	// Forget removes a session.
	Forget(id string) error
	// ForgetStudent removes a student who flew no session that is in the book with the course that was chosen, and the
	// name from what was remembered of stations and of others. Nothing of it is left in the file.
	ForgetStudent(name string) error
	// Undo removes a session as if it had never been entered.
	Undo(id string) error
	// Take enters all there is in the folder of a session. When s has no report, the legs of one that is in the book
	// stay as they are. Why says that it cannot be entered; the session is then in [Answers.LeftOut].
	Take(s *Stored) (why, err error)
	// Rebuild replaces everything by the given sessions, and returns how many it then holds. One that cannot be entered
	// is left out and passed to tell. Others see the old book until it is done, and keep it when the context ends.
	Rebuild(ctx context.Context, all iter.Seq[*Stored], tell func(id string, why error)) (n int, err error)
}

// Answers are the queries of a book.
type Answers interface {
	// List returns the sessions of a filter, newest first.
	List(ctx context.Context, f Filter) (*SessionList, error)
	// Trend shows how a maneuver went over the sessions of a filter: that of the filter, else the one with the most
	// legs. Checks cover the latest 60 sessions.
	Trend(ctx context.Context, f Filter) (*Trend, error)
	// Session returns one session. Its Problem is not filled in.
	Session(ctx context.Context, id string) (*SessionDetail, error)
	// Report returns a grading of a session in full; n is 1 for the first. What only the stream tells (its channels,
	// its length) is not in it.
	Report(ctx context.Context, id string, n int) (*debrief.Report, error)
	// Graded returns the first gradings of sessions in the order of their ids, but for the points of the legs, with
	// what people made of them. Those that are not in the book are left out.
	Graded(ctx context.Context, ids []string) ([]Graded, error)
	// Models finds legs to compare a leg with; none for a leg that is not in the book. Sessions without a student's
	// name count as one student per station.
	Models(ctx context.Context, id string, leg int) (*Models, error)
	// Students lists the students, the one who flew last first; limit 0 is all.
	Students(ctx context.Context, limit int) ([]string, error)
	// Student finds a student by name in any spelling; the zero value when there is none.
	Student(ctx context.Context, name string) (Student, error)
	// Entry returns a session as it was entered, without its cards.
	Entry(ctx context.Context, id string) (*Entry, error)
	// Legs returns how many legs a session has.
	Legs(ctx context.Context, id string) (int, error)
	// Near lists the sessions, at most five, whose ids are most like one that does not exist.
	Near(ctx context.Context, id string) ([]string, error)
	// Last returns the id of the newest session.
	Last(ctx context.Context) (string, error)
	// LeftOut lists the sessions that could not be entered.
	LeftOut(ctx context.Context) (LeftOut, error)
	// Spans lists all sessions, oldest first.
	Spans(ctx context.Context) ([]Span, error)
}

// An Entry is a session as it begins.
type Entry struct {
	ID       string // the name of its folder
	Key      string // unique everywhere; see package ids
	Station  string
	Student  Student // the zero value names nobody
	Began    time.Time
	Ended    time.Time // zero while it is being flown; [Changes.Begin] passes it over
	Version  string    // of the program
	Maneuver string    // names of cards, as chosen at the beginning
	Standard string
	Aircraft string     // "" is none
	Cards    []KeptCard // that grade it, as they stand
}

// A Student is somebody who flies. The zero value names nobody.
type Student struct {
	ID   string `json:"id,omitempty"` // unique everywhere; "" when it has none yet
	Name string `json:"name,omitempty"`
}

// A Grading is a session graded again.
type Grading struct {
	At          time.Time
	Version     string // of the program
	Maneuver    string // names of cards
	Standard    string
	Aircraft    string
	Cards       []KeptCard
	Report      *debrief.Report
	Differences []phrase.Phrase // to the first, in words
}

// A Graded is the first grading of a session, and what people made of it.
type Graded struct {
	Session string // its id
	Report  *debrief.Report
	Judging Judging
}

// A Stored is all there is of a session in its folder.
type Stored struct {
	Entry    Entry
	Standing Standing
	Report   *debrief.Report // the first grading; nil when there is none
	Regrades []Grading
	Why      error // why the folder cannot be read; nil when it can
}

// A Span is when a session was, and whether it may be removed.
type Span struct {
	ID    string
	Began time.Time
	Ended time.Time // zero while it is being flown
	Keep  bool
}
