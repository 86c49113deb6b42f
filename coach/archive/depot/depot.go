// Package depot is where the session folders of many nodes are kept: objects under names, in a directory or in an
// S3-compatible store.
//
// The sentences below are the contract of every engine: package depottest has one test for each.
package depot

import (
	"context"
	"errors"
	"fmt"
	"io"
	"regexp"
	"time"
)

// What an engine answers. An error says in one sentence where it happened and what to do, and never holds a key.
var (
	// ErrNotFound says that there is no such object.
	ErrNotFound = errors.New("there is no such object")
	// ErrExists says that there is an object of that name, which stays as it is.
	ErrExists = errors.New("there is an object of that name")
	// ErrAway says that the depot does not answer: nothing is known of what was asked for. To be tried again.
	ErrAway = errors.New("the depot does not answer")
	// ErrDenied says that the depot refuses this program: its keys, its clock or its bucket must be put right first.
	ErrDenied = errors.New("the depot refuses access")
)

// An Object is what is known of an object without reading it.
type Object struct {
	Name   string
	Size   int64
	Sum    string    // SHA-256 of its bytes in hexadecimal; "" in lists
	Stored time.Time // by the clock of the depot
}

// A Depot keeps objects. It is safe for concurrent use, by many programs too. Every call ends when its context does,
// with the error of the context or ErrAway.
//
// A name is one or more words of letters, digits and "._-", none beginning with a dot, joined by slashes. No name may
// be the beginning of another up to a slash: some stores keep objects as files.
type Depot interface {
	// Put stores what r yields under a name, in the place of an object of that name. Size is -1 when it is not known.
	// The object appears whole or not at all, also when r fails, and when the context or the program ends. A size that
	// is not that of what r yields is an error.
	Put(ctx context.Context, name string, r io.Reader, size int64) (Object, error)
	// Create is Put that fails with ErrExists when there is an object of that name: of all who create one name at once,
	// one succeeds.
	Create(ctx context.Context, name string, r io.Reader, size int64) (Object, error)
	// Open reads length bytes of an object from a place; a length of -1 reads to the end. What is past the end is not
	// read: from at or past the end, nothing is. ErrNotFound is returned by Open, not by the first Read.
	Open(ctx context.Context, name string, from, length int64) (io.ReadCloser, error)
	// Stat returns what is known of an object.
	Stat(ctx context.Context, name string) (Object, error)
	// List calls each with the objects whose names begin with a prefix, in the order of their names by bytes. An object
	// that was stored or deleted before List was called is listed so. An error of each ends the list and is returned.
	List(ctx context.Context, prefix string, each func(Object) error) error
	// Delete removes an object. Deleting one that is not there is no error.
	Delete(ctx context.Context, name string) error
	// String says which depot it is, for people.
	String() string
}

// A Sweeper is a Depot in which a program that died may leave something that is no object and takes room.
type Sweeper interface {
	// Sweep removes what was left before a time, and returns how much that was.
	Sweep(ctx context.Context, before time.Time) (int, error)
}

// name matches names of objects.
var name = regexp.MustCompile(`^[A-Za-z0-9_-][A-Za-z0-9._-]*(/[A-Za-z0-9_-][A-Za-z0-9._-]*)*$`)

// mostName is the length of a name, bytes: S3 takes 1,024 with the prefix of the depot.
const mostName = 900

// CheckName returns an error for what cannot be the name of an object.
func CheckName(s string) error {
	if len(s) > mostName || !name.MatchString(s) {
		return fmt.Errorf("%q cannot be the name of an object", s)
	}
	return nil
}

// Read returns all bytes of an object. It is for small ones.
func Read(ctx context.Context, d Depot, name string) ([]byte, error) {
	r, err := d.Open(ctx, name, 0, -1)
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(r)
	return data, errors.Join(err, r.Close())
}
