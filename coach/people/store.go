package people

import (
	"context"
	"fmt"
	"time"

	"halfturn/coach/permit"
)

// A Hash stands for a secret in a store: SHA-256 of a token or key, as package secret makes it.
type Hash [32]byte

// A Store keeps people. It is safe for concurrent use, also by several programs. An error is a [NotFound], [Taken] or
// [Full] where the call says so; any other is a failure of the database.
type Store interface {
	Users
	Logins
	Invitations
	Stations
	Log
	// Forget removes a person by name, however it is written: the user and the links made for them, and the name from
	// the log and from links that they made.
	Forget(name string) (Forgotten, error)
	// About counts what Forget would remove.
	About(name string) (Forgotten, error)
	// Held returns what is stored about a person by name, however it is written: nothing secret, nor the hash of it.
	Held(ctx context.Context, name string) (Held, error)
	// Close closes the database.
	Close() error
}

// A Forgotten counts what was removed with a person.
type Forgotten struct {
	Users   int
	Links   int
	Entries int // of the log, in which the name stood
}

// Held is what is stored about a person.
type Held struct {
	Users   []User       `json:"users"`
	Logins  []Login      `json:"logins"`
	Links   []Invitation `json:"links"` // made for them, or by them
	Entries []Entry      `json:"log"`   // those in which the name stands, newest first
}

// IsZero reports whether nothing is stored.
func (h *Held) IsZero() bool {
	return len(h.Users) == 0 && len(h.Logins) == 0 && len(h.Links) == 0 && len(h.Entries) == 0
}

// Users have names and passwords.
type Users interface {
	// AddUser adds a user with the hash of a password. The error is Taken when somebody has the name.
	AddUser(u User, password string) error
	// Users lists them by name.
	Users(ctx context.Context) ([]User, error)
	// UserNamed returns a user and the hash of the password. The error is NotFound when nobody has the name.
	UserNamed(ctx context.Context, name string) (u User, password string, err error)
	// ChangeUser changes role, stations and group of the user with the id of u, and ends their logins.
	ChangeUser(u User) error
	// SetPassword changes the hash of the password of a user, and ends their logins.
	SetPassword(id, password string) error
	// RemoveUser removes a user with their logins.
	RemoveUser(id string) error
}

// Logins are the browsers that are let in.
type Logins interface {
	// AddLogin adds a login with the hash of its token.
	AddLogin(l Login, token Hash) error
	// Login returns a login that has not ended, and who it is, by the hash of its token; it notes that it was used.
	Login(ctx context.Context, token Hash, now time.Time) (Login, permit.Caller, error)
	// Alive reports which of some logins, by id, have not ended.
	Alive(ctx context.Context, ids []string, now time.Time) (map[string]bool, error)
	// EndLogin ends a login by id. One that is not there has ended.
	EndLogin(id string) error
	// EndLogins ends all logins of a user but one, "" for none.
	EndLogins(user, but string) error
}

// Invitations are links.
type Invitations interface {
	// Invite adds a link with the hash of its token.
	Invite(i Invitation, token Hash) error
	// Invitations lists those that have not ended, the newest first.
	Invitations(ctx context.Context, now time.Time) ([]Invitation, error)
	// Invited returns the link of a token that has not ended. The error is NotFound otherwise.
	Invited(ctx context.Context, token Hash, now time.Time) (Invitation, error)
	// Revoke ends a link, and the logins that it gave.
	Revoke(id string) error
}

// Stations have keys and groups.
type Stations interface {
	// AddStation adds a station with the hash of its key; the zero hash is no key. The error is Taken when there is one
	// of the name.
	AddStation(s Station, key Hash) error
	// Stations lists them by name.
	Stations(ctx context.Context) ([]Station, error)
	// StationOf returns the station of a key, and notes that the key was brought. The error is NotFound for a key that
	// is not known or was revoked.
	StationOf(ctx context.Context, key Hash, now time.Time) (Station, error)
	// HasKey reports whether there is a station of a name, in any capitals, and it has a key.
	HasKey(ctx context.Context, station string) (bool, error)
	// SetKey gives a station another key; the zero hash takes its key away.
	SetKey(id string, key Hash) error
	// RemoveStation removes a station with its key. What was recorded there stays.
	RemoveStation(id string) error
}

// Log is what was asked for.
type Log interface {
	// Note adds entries.
	Note(entries ...Entry) error
	// Entries lists the newest, newest first, up to a number; of one user where the id is not "".
	Entries(ctx context.Context, user string, most int) ([]Entry, error)
}

// NotFound says that there is no such thing.
type NotFound struct{ What string }

// Error says what is not there.
func (n *NotFound) Error() string { return "there is no " + n.What }

// Taken says that a name is somebody else's, or something else's.
type Taken struct{ What, Name string }

// Error names it.
func (t *Taken) Error() string {
	return fmt.Sprintf("there is %s named %q already; choose another name", t.What, t.Name)
}

// Full says that there are as many as there may be.
type Full struct {
	What string
	Most int
}

// Error says how many that is.
func (f *Full) Error() string {
	return fmt.Sprintf("there are %d %s already, as many as there may be; remove some first", f.Most, f.What)
}
