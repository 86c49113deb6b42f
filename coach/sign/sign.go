// Package sign makes and verifies signatures under the grades of a session.
//
// # What is signed
//
// The hash of a signature is the SHA-256 of a JSON document in canonical form (package canonical, RFC 8785):
//
//	{
//	  "acts":    [the acts before the signature, as they stand in acts.jsonl, with names covered],
//	  "at":      the time of the signature, RFC 3339,
//	  "grades":  [for each station of summary.json the list of its series, as it stands there],
//	  "session": the key of the session,
//	  "signer":  the name of who signed, covered,
//	  "student": who flew, as of then, covered,
//	  "version": 1
//	}
//
// Later acts are not in it, and neither are later gradings: they stand in files of their own. So nothing that is added
// after a signature changes what was signed, and whoever changes grades or earlier acts breaks it.
//
// # Names
//
// A person may ask to be forgotten, and a signature must then still show that nothing else was changed. So names are
// covered before they are hashed: for each of them the hash of a random salt and the name is taken, and the name is
// replaced by that hash wherever it stands in the members name, author and words of an act. The signature keeps name
// and salt beside the hash. To remove a name is to write its hash in its place on the disk too, and to delete name and
// salt: the document stays the same, and without the salt nobody can find the name by trying.
//
// It is a seal against changes by mistake or by others, not a proof of who somebody is: whoever can write the folder
// can sign it.
package sign

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"time"

	"halfturn/coach/canonical"
	"halfturn/coach/logbook"
	"halfturn/coach/names"
)

// version is of the document.
const version = 1

// A Folder is what a signature is made over: what lies in the folder of a session.
type Folder struct {
	Session string // its key
	Student string // that it began with
	Grades  any    // as in the document
	Acts    []any  // all of them, as JSON values
	Parsed  []logbook.Act
}

// New signs everything that lies in a folder. known are names that may stand in words, beside those that stand as the
// names of who did something.
func New(f *Folder, signer string, known []string, at time.Time) (*logbook.Signature, error) {
	s := &logbook.Signature{Name: signer}
	have := map[string]bool{}
	for i := range f.Parsed {
		if before := f.Parsed[i].Signature; before != nil {
			for _, n := range before.Names {
				have[names.Key(n.Name)] = true
			}
		}
	}
	for _, name := range f.named(signer, known) {
		if key := names.Key(name); key != "" && !have[key] {
			have[key] = true
			s.Names = append(s.Names, signed(name, salt()))
		}
	}
	hash, err := f.hash(s, f.Acts, f.Parsed, at)
	s.Hash = hash
	return s, err
}

// named lists the names that stand in the acts, that of the signer and of the student, and those of the known that
// stand in words.
func (f *Folder) named(signer string, known []string) []string {
	all := []string{signer, f.Student}
	for i := range f.Parsed {
		a := &f.Parsed[i]
		all = append(all, a.By.Name, a.Author)
		if a.Student != nil {
			all = append(all, a.Student.Name)
		}
		for _, name := range known {
			if names.Holds(a.Words, name) {
				all = append(all, name)
			}
		}
	}
	return all
}

// Verify says whether a signature holds: the act number n of a folder, from 0.
func Verify(f *Folder, n int) bool {
	if n >= len(f.Parsed) || f.Parsed[n].Signature == nil {
		return false
	}
	a := &f.Parsed[n]
	hash, err := f.hash(a.Signature, f.Acts[:n], f.Parsed[:n], a.At)
	return err == nil && hash == a.Signature.Hash
}

// hash is that of the document.
func (f *Folder) hash(s *logbook.Signature, acts []any, parsed []logbook.Act, at time.Time) (string, error) {
	cover := coverOf(parsed, s)
	covered := make([]any, len(acts))
	for i, a := range acts {
		covered[i] = coverAct(a, cover)
	}
	first := logbook.Student{Name: f.Student}
	return canonical.Hash(map[string]any{
		"acts":    covered,
		"at":      at.UTC().Format(time.RFC3339),
		"grades":  f.Grades,
		"session": f.Session,
		"signer":  cover.In(s.Name),
		"student": cover.In(flew(first, parsed)),
		"version": float64(version),
	})
}

// flew is who flew a session, as it stands on the disk.
func flew(first logbook.Student, acts []logbook.Act) string {
	name := first.Name
	for i := range acts {
		if a := &acts[i]; a.Kind == logbook.ActStudent {
			name = ""
			if a.Student != nil {
				name = a.Student.Name
			}
		}
	}
	return name
}

// coverOf is what stands for the names of a signature and those before it.
func coverOf(acts []logbook.Act, s *logbook.Signature) *names.Cover {
	stands := map[string]string{}
	add := func(list []logbook.SignedName) {
		for _, n := range list {
			if n.Name != "" {
				stands[n.Name] = names.Covered(signed(n.Name, n.Salt).Hash)
			}
		}
	}
	for i := range acts {
		if before := acts[i].Signature; before != nil {
			add(before.Names)
		}
	}
	add(s.Names)
	return names.NewCover(stands)
}

// Texts are the members of acts, and of other files of a session, that may hold names of people.
var texts = []string{"author", "name", "reason", "text", "words"}

// coverAct covers the names in an act. Of the names that an earlier signature keeps, only the hashes count.
func coverAct(v any, cover *names.Cover) any {
	return Rewrite(v, func(key string, v any) any {
		switch v := v.(type) {
		case string:
			return cover.In(v)
		case []any:
			if key != "names" {
				return v
			}
			hashes := make([]any, len(v))
			for i := range v {
				if m, ok := v[i].(map[string]any); ok {
					hashes[i] = m["hash"]
				}
			}
			return hashes
		}
		return v
	})
}

// Rewrite returns a copy of a JSON value in which each text that may hold names of people is what change makes of it,
// and each list of signed names. Nothing else is shown to change.
func Rewrite(v any, change func(key string, v any) any) any {
	switch v := v.(type) {
	case map[string]any:
		out := make(map[string]any, len(v))
		for key, member := range v {
			text, isText := member.(string)
			switch {
			case isText && slices.Contains(texts, key):
				out[key] = change(key, text)
			case key == "names":
				out[key] = change(key, member)
			default:
				out[key] = Rewrite(member, change)
			}
		}
		return out
	case []any:
		out := make([]any, len(v))
		for i := range v {
			out[i] = Rewrite(v[i], change)
		}
		return out
	}
	return v
}

// signed is a name as a signature keeps it.
func signed(name, salt string) logbook.SignedName {
	sum := sha256.Sum256([]byte(salt + "\n" + names.Key(name)))
	return logbook.SignedName{Name: name, Salt: salt, Hash: hex.EncodeToString(sum[:])}
}

// salt returns 128 random bits in hex.
func salt() string {
	var b [16]byte
	_, _ = rand.Read(b[:]) // it never fails
	return hex.EncodeToString(b[:])
}

// HashOf is the hash that the signatures of a session know a name by; "" when none does.
func HashOf(acts []logbook.Act, name string) string {
	key := names.Key(name)
	for i := range acts {
		if s := acts[i].Signature; s != nil {
			for _, n := range s.Names {
				if n.Name != "" && names.Key(n.Name) == key {
					return n.Hash
				}
			}
		}
	}
	return ""
}

// Without removes a name from the acts of a session: by its hash where a signature knows it, else by [names.Removed].
// others are names that are kept, also where they hold the removed one. It returns whether anything was changed.
func Without(acts []any, parsed []logbook.Act, name string, others []string) (_ []any, changed bool) {
	stands := map[string]string{}
	for _, other := range others {
		stands[other] = ""
	}
	stands[name] = names.Removed
	key := names.Key(name)
	for i := range parsed {
		if s := parsed[i].Signature; s != nil {
			for _, n := range s.Names {
				switch {
				case n.Name == "":
				case names.Key(n.Name) == key:
					stands[name] = names.Covered(n.Hash)
				default:
					stands[n.Name] = ""
				}
			}
		}
	}
	cover := names.NewCover(stands)
	out := make([]any, len(acts))
	for i := range acts {
		out[i] = Rewrite(acts[i], func(member string, v any) any {
			if text, ok := v.(string); ok {
				is := cover.In(text)
				changed = changed || is != text
				return is
			}
			list, ok := v.([]any)
			if !ok || member != "names" {
				return v
			}
			kept := make([]any, len(list))
			for k := range list {
				kept[k] = list[k]
				if m, ok := list[k].(map[string]any); ok && names.Key(fmt.Sprint(m["name"])) == key {
					kept[k], changed = map[string]any{"hash": m["hash"]}, true
				}
			}
			return kept
		})
	}
	return out, changed
}
