package query

import (
	"context"
	"database/sql"
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
	"halfturn/coach/names"
	"halfturn/stream/phrase"
)

// where is the condition of a filter on sessions s.
type where struct {
	parts []string
	args  []any
	most  int // sessions that are counted
}

// clone is a copy that more can be added to.
func (w *where) clone() *where { return &where{slices.Clone(w.parts), slices.Clone(w.args), w.most} }

func (w *where) and(part string, args ...any) {
	w.parts = append(w.parts, part)
	w.args = append(w.args, args...)
}

func (w *where) String() string {
	if len(w.parts) == 0 {
		return ""
	}
	return " WHERE " + strings.Join(w.parts, " AND ")
}

func (b Questions) where(ctx context.Context, tx *tables.Tx, f *logbook.Filter) (*where, error) {
	w := &where{most: mostCounted}
	if f.Student != "" && b.ShapeIs() < tables.ShapeOfNames {
		w.and("s.student = (SELECT key FROM students WHERE name = ?)", f.Student)
	} else if f.Student != "" {
		w.and("s.student = (SELECT key FROM students WHERE fold = ?)", names.Key(f.Student))
	}
	if f.Stations != nil {
		w.in("s.station", f.Stations)
	}
	if f.Aircraft != "" {
		w.and("s.aircraft = ?", f.Aircraft)
	}
	if f.Grade != "" {
		w.and("s.grade = ?", f.Grade)
	}
	if !f.From.IsZero() {
		w.and("s.began >= ?", f.From.UnixMilli())
	}
	if !f.To.IsZero() {
		w.and("s.began < ?", f.To.UnixMilli())
	}
	if words := words(f.Text); len(words) > 0 {
		return w, w.found(ctx, tx, words)
	} else if strings.TrimSpace(f.Text) != "" {
		w.and("1 = 0") // no letters: nothing is found
	}
	return w, nil
}

// found adds that a remark of the session holds words. Where few do, those sessions are looked up; where many do,
// sessions are looked through one after another, which soon meets enough of them. The database cannot choose: it does
// not know how frequent the beginning of a word is. OFFSET keeps PostgreSQL from making a join of the second.
func (w *where) found(ctx context.Context, tx *tables.Tx, words []string) error {
	condition, arg := tx.Search(words)
	var keys []int64
	rows, err := tx.QueryContext(ctx, "SELECT r.session FROM remarks r WHERE "+condition+" LIMIT ?", arg, mostFound+1)
	err = tables.Each(rows, err, func() error {
		var key int64
		err := rows.Scan(&key)
		keys = append(keys, key)
		return err
	})
	if err != nil {
		return err
	}
	if len(keys) > mostFound {
		w.most = mostOfFrequent
		w.and("EXISTS (SELECT 1 FROM remarks r WHERE r.session = s.key AND "+condition+" LIMIT 1 OFFSET 0)", arg)
		return nil
	}
	among, arg := tx.Among("s.key", keys)
	w.and(among, arg)
	return nil
}

// in adds that a column holds one of some values.
func (w *where) in(column string, values []string) {
	if len(values) == 0 {
		w.and("1 = 0")
		return
	}
	args := make([]any, len(values))
	for i, v := range values {
		args[i] = v
	}
	w.and(column+" IN (?"+strings.Repeat(", ?", len(values)-1)+")", args...)
}

// mostWords is how many words are looked for at once.
const mostWords = 20

// words are what a search looks for: a remark must contain every word, or a word that begins with it.
func words(text string) []string {
	all := strings.FieldsFunc(text, func(r rune) bool { return !isOfWord(r) })
	return all[:min(len(all), mostWords)]
}

func isOfWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) || unicode.IsMark(r) }

// rowColumns are the columns of a row.
func (b Questions) rowColumns() string {
	return rowsOfAll + headline("s", b.ShapeIs())
}

// headline is the column of the headlines of a table; nothing in a file from before there were any.
func headline(of string, shape int) string {
	if shape < tables.ShapeOfHeadlines {
		return "''"
	}
	return of + ".headline"
}

const rowsOfAll = `s.key, s.id, s.began, s.ended, s.station, coalesce((SELECT name FROM students
	WHERE key = s.student), ''),
	s.keep, s.maneuvers, s.standard, s.aircraft, s.title, s.verdicts, s.legs, s.score, s.grade, s.change, s.remarks,
	s.server, `

// List returns the sessions of a filter, newest first.
func (b Questions) List(ctx context.Context, f logbook.Filter) (*logbook.SessionList, error) {
	list := &listed{logbook.SessionList{Version: logbook.FormatVersion, Sessions: []logbook.SessionRow{}}}
	limit := f.Limit
	if limit <= 0 {
		limit = logbook.UsualLimit
	}
	limit = min(limit, logbook.MostLimit)
	return &list.SessionList, b.Ask(ctx, func(tx *tables.Tx) error {
		w, err := b.where(ctx, tx, &f)
		if err != nil {
			return err
		}
		if f.Maneuver != "" {
			if len(w.parts) > 0 {
				w.most = min(w.most, mostOfBoth)
			}
			w.and("EXISTS (SELECT 1 FROM flown f WHERE f.session = s.key AND f.maneuver = ?)", f.Maneuver)
		}
		if err := list.count(ctx, tx, w, f.Flown && f.Maneuver == ""); err != nil {
			return err
		}
		if err := page(w, f.After); err != nil {
			return err
		}
		var keys []int64
		q := "SELECT " + b.rowColumns() + " FROM sessions s" + w.String() + " ORDER BY s.began DESC, s.id DESC LIMIT ?"
		rows, err := tx.QueryContext(ctx, q, append(w.args, limit+1)...)
		var began int64
		err = tables.Each(rows, err, func() error {
			if len(list.Sessions) == limit { // one more: Next points to it
				last := &list.Sessions[limit-1]
				list.Next = strconv.FormatInt(began, 10) + "_" + last.ID
				return nil
			}
			r, err := row(rows)
			if err == nil {
				began = r.began
				keys, list.Sessions = append(keys, r.key), append(list.Sessions, r.SessionRow)
			}
			return err
		})
		if err != nil {
			return err
		}
		if err := found(ctx, tx, f.Text, keys, list.Sessions); err != nil {
			return err
		}
		if err := b.leftOut(ctx, tx, &list.LeftOut); err != nil {
			return err
		}
		return list.facets(ctx, tx)
	})
}

// A listed is a list being made.
type listed struct{ logbook.SessionList }

// unflown matches sessions of no interest; an index covers it.
const unflown = "s.legs = 0 AND s.ended IS NOT NULL AND s.keep = 0 AND s.remarks = 0"

// Bounds of what an answer counts and lists, so that it takes as long in a logbook of millions as in one of thousands.
const (
	mostCounted    = 10_000
	mostOfBoth     = 1_000 // sessions of a maneuver that another condition holds for, too
	mostFound      = 4_000 // remarks with a word that is looked up; one in more of them is frequent
	mostOfFrequent = 100   // sessions with a frequent word that are counted
	mostStudents   = 500
)

// count counts the matches, as far as is counted; with flown it excludes sessions without a leg, and counts those
// apart. Where a maneuver is asked for there are none.
func (l *listed) count(ctx context.Context, tx *tables.Tx, w *where, flown bool) (err error) {
	if flown {
		without := w.clone()
		without.and(unflown)
		if l.Unflown, _, err = without.count(ctx, tx); err != nil {
			return err
		}
		w.and("NOT (" + unflown + ")")
	}
	l.Total, l.More, err = w.count(ctx, tx)
	return err
}

// count counts the sessions of a filter, and reports whether there are more than it counted.
func (w *where) count(ctx context.Context, tx *tables.Tx) (n int, more bool, err error) {
	err = tx.QueryRowContext(ctx, "SELECT count(*) FROM (SELECT 1 FROM sessions s"+w.String()+" LIMIT ?) AS counted",
		append(slices.Clone(w.args), w.most+1)...).Scan(&n)
	return min(n, w.most), n > w.most, err
}

// page continues after the last session of the previous answer.
func page(w *where, after string) error {
	if after == "" {
		return nil
	}
	began, id, ok := strings.Cut(after, "_")
	at, err := strconv.ParseInt(began, 10, 64)
	if !ok || err != nil {
		return logbook.Refuse(phrase.BadAfter.Of(phrase.Name("after", after)))
	}
	w.and("(s.began, s.id) < (?, ?)", at, id)
	return nil
}

// A fullRow is a row with columns that the answer does not show.
type fullRow struct {
	logbook.SessionRow
	key, began int64
	server     string
}

func row(rows *sql.Rows) (*fullRow, error) {
	r := &fullRow{}
	var ended sql.NullInt64
	var maneuvers, verdicts string
	err := rows.Scan(&r.key, &r.ID, &r.began, &ended, &r.Station, &r.Student, &r.Keep, &maneuvers, &r.Standard,
		&r.Aircraft.Name, &r.Aircraft.Title, &verdicts, &r.Legs, &r.Score, &r.Grade, readPhrase{&r.Change},
		&r.Remarks, &r.server, readPhrase{&r.Headline})
	if err != nil {
		return nil, err
	}
	r.Began, r.Verdicts = logbook.Zulu(tables.Moment(r.began)), logbook.VerdictsOf(verdicts)
	if ended.Valid {
		r.Ended = logbook.Zulu(tables.Moment(ended.Int64))
	}
	return r, json.Unmarshal([]byte(maneuvers), &r.Maneuvers)
}

// found adds to each session the remark that matched, the first of several.
func found(ctx context.Context, tx *tables.Tx, text string, keys []int64, list []logbook.SessionRow) error {
	words := words(text)
	if len(words) == 0 || len(keys) == 0 {
		return nil
	}
	condition, arg := tx.Search(words)
	args, at := []any{arg}, map[int64]int{}
	for i, key := range keys {
		args, at[key] = append(args, key), i
	}
	rows, err := tx.QueryContext(ctx, `SELECT r.session, r.words FROM remarks r WHERE `+condition+
		` AND r.session IN (?`+strings.Repeat(", ?", len(keys)-1)+`) ORDER BY r.id DESC`, args...)
	return tables.Each(rows, err, func() error {
		var key int64
		var remark string
		err := rows.Scan(&key, &remark)
		list[at[key]].Found = excerpt(remark, words) // the first remark comes last and stays
		return err
	})
}

// facets lists the values that the whole logbook can be filtered by; of students those who flew last.
func (l *listed) facets(ctx context.Context, tx *tables.Tx) (err error) {
	if l.Students, err = students(ctx, tx, mostStudents); err != nil {
		return err
	}
	l.Maneuvers, err = named(ctx, tx, tx.Distinct("flown", "maneuver", "title"))
	if err != nil {
		return err
	}
	l.Aircraft, err = named(ctx, tx, tx.Distinct("sessions", "aircraft", "title"))
	return err
}

// named reads cards; of a name with several titles the last one counts.
func named(ctx context.Context, tx *tables.Tx, q string) ([]logbook.Named, error) {
	list, at := []logbook.Named{}, map[string]int{}
	rows, err := tx.QueryContext(ctx, q)
	return list, tables.Each(rows, err, func() error {
		var n logbook.Named
		if err := rows.Scan(&n.Name, &n.Title); err != nil {
			return err
		}
		if i, ok := at[n.Name]; ok {
			list[i] = n
			return nil
		}
		at[n.Name] = len(list)
		list = append(list, n)
		return nil
	})
}

// students lists those that have sessions, the one who flew last first.
func students(ctx context.Context, tx *tables.Tx, limit int) ([]string, error) {
	list := []string{}
	rows, err := tx.QueryContext(ctx, `SELECT name FROM students t WHERE EXISTS (SELECT 1 FROM sessions
		WHERE student = t.key)
		ORDER BY flew DESC, name LIMIT ?`, limit)
	return list, tables.Each(rows, err, func() error {
		var name string
		err := rows.Scan(&name)
		list = append(list, name)
		return err
	})
}
