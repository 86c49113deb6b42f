package archive

import (
	"archive/zip"
	"bytes"
	"errors"
	"net/netip"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/archive/folder"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/names"
	"halfturn/coach/who"
	"halfturn/stream/record"
)

// judgeable makes a session of two legs that is over.
func judgeable(t *testing.T, b *Archive, began time.Time, student string) string {
	t.Helper()
	id := entered(t, b, began, student)
	r := reportOf(id, flight(1, coach.Finished, coach.Met, coach.Good, 90, "More bank"),
		flight(2, coach.Finished, coach.Missed, coach.Unable, 40, "More bank"))
	must(t, b.Keep(id, r))
	_, err := b.Save(id, r)
	must(t, err, b.End(id, began.Add(time.Hour)))
	return id
}

func refusedFor(t *testing.T, what string, err error, words string) {
	t.Helper()
	var refused *logbook.Refused
	if !errors.As(err, &refused) || !strings.Contains(err.Error(), words) {
		t.Errorf("%s: %v; must be refused for %q", what, err, words)
	}
}

var instructor = who.Who{ID: "u1", Name: "B. Example", Role: who.RoleInstructor}

// TestJudging: what is overruled, rated and signed is kept, read back after a rebuild, and says what came after a
// signature.
func TestJudging(t *testing.T) {
	b := open(t)
	id := judgeable(t, b, began, "Ada Example")
	must(t,
		b.Overrule(instructor, id, logbook.Overrule{Leg: 2, Verdict: coach.Met, Reason: " a  gust "}),
		b.Rate(who.Who{Name: "Ada Example"}, id, logbook.Rating{Leg: 2, Grade: coach.Fair, Thing: "bank"}),
		b.Observe(instructor, id, logbook.Observation{Series: 1, Element: "S1", Mark: logbook.Satisfactory}),
		b.Sign(instructor, id, "B. Example"),
		b.Overrule(instructor, id, logbook.Overrule{Leg: 1, Verdict: coach.Near, Reason: "late"}),
	)
	for _, step := range []string{"at once", "rebuilt"} {
		d, err := b.Session(t.Context(), id)
		must(t, err)
		j := d.Judging
		if len(j.Overruled) != 2 || j.Overruled[0].After || !j.Overruled[1].After ||
			j.Overruled[0].Reason != "a gust" || j.Overruled[0].By != "B. Example" || len(j.Observed) != 1 {
			t.Errorf("%s: %+v", step, j)
		}
		if r := j.Ratings; len(r) != 1 || r[0].Measured.Grade != coach.Good || r[0].By != "Ada Example" {
			t.Errorf("%s: %+v", step, r)
		}
		if s := j.Signed; len(s) != 1 || !s[0].Holds || s[0].Acts != 3 || s[0].After != 1 || len(s[0].Hash) != 64 {
			t.Errorf("%s: %+v", step, s)
		}
		if d.Grade != coach.Fair {
			t.Errorf("%s: the list says %s", step, d.Grade)
		}
		r, err := b.Judged(t.Context(), id)
		must(t, err)
		if legs := r.Files[0].Stations[0].Series[0].Legs; legs[1].Verdict != coach.Met ||
			legs[1].Computed.Grade != coach.Unable || !r.Signed[0].Holds {
			t.Errorf("%s: %+v, %+v", step, legs[1], r.Signed)
		}
		_, err = b.Rebuild(t.Context(), who.Owner(), nil)
		must(t, err)
	}
	must(t, b.Overrule(instructor, id, logbook.Overrule{Leg: 2, Check: ""}), b.Sign(instructor, id, "B. Example"))
	j, err := b.Judging(t.Context(), id)
	must(t, err)
	if len(j.Overruled) != 1 || len(j.Signed) != 2 || !j.Signed[0].Holds || !j.Signed[1].Holds {
		t.Errorf("signed once more: %+v", j)
	}
}

// TestJudgingRefused: what cannot be judged is refused in a plain sentence, and nothing is kept of it.
func TestJudgingRefused(t *testing.T) {
	b := open(t)
	id := judgeable(t, b, began, "")
	flying := entered(t, b, began.Add(time.Hour), "")
	o := func(o logbook.Overrule) error { return b.Overrule(instructor, id, o) }
	rate := func(r logbook.Rating) error { return b.Rate(instructor, id, r) }
	near := func(leg, series int, check, verdict, reason string) logbook.Overrule {
		return logbook.Overrule{Leg: leg, Series: series, Check: check, Verdict: verdict, Reason: reason}
	}
	for what, c := range map[string]struct {
		err   error
		words string
	}{
		"no reason":         {o(near(1, 0, "", coach.Met, " \n")), "the reason is missing"},
		"a long reason":     {o(near(1, 0, "", coach.Met, strings.Repeat("x", 501))), "501 letters"},
		"a terminal code":   {o(near(1, 0, "", coach.Met, "a\x1b[2J")), "U+001B"},
		"another verdict":   {o(near(1, 0, "", "great", "x")), "must be met, near, missed"},
		"no such check":     {o(near(1, 0, "nothing", coach.Met, "x")), "has no check"},
		"no such leg":       {o(near(3, 0, "", coach.Met, "x")), "has no leg 3"},
		"no such series":    {o(near(0, 9, "", coach.Met, "x")), "has no series 9"},
		"a leg of a series": {o(near(1, 1, "", coach.Met, "x")), "must be a leg or a series"},
		"another mark":      {b.Observe(instructor, id, logbook.Observation{Series: 1, Mark: "ok"}), "mark is"},
		"another grade":     {rate(logbook.Rating{Leg: 1, Grade: "great"}), "grade is"},
		"another thing":     {rate(logbook.Rating{Leg: 1, Grade: coach.Good, Thing: "x"}), "one thing is"},
		"a leg that is not": {rate(logbook.Rating{Leg: 7, Grade: coach.Good}), "has no leg 7"},
		"nobody signs":      {b.Sign(instructor, id, " "), "the name is missing"},
		"still flown":       {b.Sign(instructor, flying, "B. Example"), "still being flown"},
	} {
		refusedFor(t, what, c.err, c.words)
	}
	must(t, b.Sign(instructor, id, "B. Example"))
	refusedFor(t, "signed twice", b.Sign(instructor, id, "C. Example"), "signed already by")
	empty := entered(t, b, began.Add(2*time.Hour), "")
	must(t, b.End(empty, began.Add(3*time.Hour)))
	refusedFor(t, "nothing flown", b.Sign(instructor, empty, "B. Example"), "nothing to sign")
	if acts, err := b.Acts(id); err != nil || len(acts) != 1 {
		t.Errorf("%d acts were kept, %v", len(acts), err)
	}
}

// TestSignatureBreaks: whoever changes the grades or an earlier act breaks the signature; a regrade and a later act do
// not.
func TestSignatureBreaks(t *testing.T) {
	for what, c := range map[string]struct {
		file, from, to string
		holds          bool
	}{
		"the grade":       {folder.SummaryFile, `"score": 40`, `"score": 80`, false},
		"a reason":        {folder.ActsFile, "a gust", "no gust", false},
		"a name":          {folder.ActsFile, `"name":"B. Example"`, `"name":"C. Example"`, false},
		"white space":     {folder.SummaryFile, "\n", "\n ", true},
		"what came after": {folder.ActsFile, "afterwards", "later", true},
	} {
		b := open(t)
		id := judgeable(t, b, began, "Ada Example")
		must(t, b.Overrule(instructor, id, logbook.Overrule{Leg: 2, Verdict: coach.Met, Reason: "a gust"}),
			b.Sign(instructor, id, "B. Example"))
		_, err := b.Remark(who.Owner(), id, logbook.Remark{Words: "afterwards"})
		must(t, err)
		_, err = b.Regrade(who.Owner(), id, logbook.Grading{At: began, Report: reportOf(id)})
		must(t, err)
		file := filepath.Join(b.Dir(), id, c.file)
		data, err := os.ReadFile(file)
		must(t, err)
		if !bytes.Contains(data, []byte(c.from)) {
			t.Fatalf("%s: %s is not in %s", what, c.from, data)
		}
		must(t, os.WriteFile(file, bytes.ReplaceAll(data, []byte(c.from), []byte(c.to)), 0o600))
		j, err := b.Judging(t.Context(), id)
		must(t, err)
		if j.Signed[0].Holds != c.holds {
			t.Errorf("%s: holds is %v", what, j.Signed[0].Holds)
		}
	}
}

// TestForgetPerson: a person who is forgotten is in no file of the data directory: not in sessions of their own, acts
// and signatures of others, recordings, the logbook. The signatures still hold, and say that a name was removed.
func TestForgetPerson(t *testing.T) {
	data := t.TempDir()
	b, err := Open(data, Options{Engine: sqlite.Engine{}})
	must(t, err)
	defer b.Close()
	const name = "Ada <Éxample>"
	ada := who.Who{Name: name}
	own := judgeable(t, b, began, name)
	other := judgeable(t, b, began.Add(time.Hour), name) // who flew it was corrected afterwards
	third := judgeable(t, b, began.Add(2*time.Hour), "Bo Example")
	must(t, b.SetStudent(ada, other, "Bo Example"), b.SetKeep(ada, own, true))
	_, err = b.Remark(ada, other, logbook.Remark{By: strings.ToLower(name), Words: "as ADA <ÉXAMPLE> said; not Ada"})
	must(t, err)
	late := logbook.Overrule{Leg: 2, Verdict: coach.Met, Reason: name + " was told late"}
	must(t, b.Overrule(instructor, other, late),
		b.Sign(ada, other, name), b.Sign(instructor, third, "B. Example"),
		b.RememberStation(ada, "seat", maneuver.Choice{Maneuver: "wing-over"}),
		b.RememberCourse(ada, name, logbook.CourseChoice{Course: "first"}),
		b.RememberCourse(ada, "Bo Example", logbook.CourseChoice{Course: "first"}),
		b.Rule(ada, third, logbook.Ruling{Step: "a", Verdict: logbook.StepPassed, Reason: "as " + name + " said"}))
	recorded(t, filepath.Join(b.Dir(), other), `halfturn {"student":"Ada \u003cÉxample\u003e"}`, name)
	was, err := b.Judging(t.Context(), other)
	must(t, err)
	if !was.Signed[0].Holds {
		t.Fatal("it does not hold as signed")
	}

	var pack bytes.Buffer
	p, err := b.Person(t.Context(), strings.ToUpper(name))
	must(t, err)
	must(t, b.ExportPerson(t.Context(), &pack, p, nil))
	if len(p.Sessions) != 1 || len(p.Named) != 2 || p.Course == nil || p.Course.Course != "first" {
		t.Errorf("%+v", p)
	}
	z, err := zip.NewReader(bytes.NewReader(pack.Bytes()), int64(pack.Len()))
	must(t, err)
	for _, file := range []string{"person.json", "sessions/" + own + "/notes.json", "sessions/" + own + "/summary.json",
		"sessions/" + own + "/logbook.json", "named/" + other + "/acts.jsonl"} {
		if f, err := z.Open(file); err != nil {
			t.Errorf("%s is not in the export: %v", file, err)
		} else {
			must(t, f.Close())
		}
	}

	b.options.Tell = func(words string) { t.Error(words) }
	f, err := b.ForgetPerson(t.Context(), who.Owner(), name)
	must(t, err)
	if len(f.Sessions) != 1 || len(f.Named) != 2 || len(f.Left)+len(f.Damaged) != 0 {
		t.Errorf("%+v", f)
	}
	if holding, _, err := folder.Holding(data, name); err != nil || len(holding) > 0 {
		t.Errorf("the name still stands in %q, %v", holding, err)
	}
	if _, err := os.Stat(filepath.Join(b.Dir(), own)); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the session is still there: %v", err)
	}
	d, err := b.Session(t.Context(), other)
	must(t, err)
	if s := d.Judging.Signed[0]; !s.Holds || s.Removed != 1 || s.By != names.Removed || s.Hash != was.Signed[0].Hash {
		t.Errorf("the signature says %+v", s)
	}
	if r := d.Said[0]; r.By != names.Removed || r.Words != "as "+names.Removed+" said; not Ada" {
		t.Errorf("the remark is %+v", r)
	}
	if d, err := b.Session(t.Context(), third); err != nil || !d.Judging.Signed[0].Holds || d.Student != "Bo Example" {
		t.Errorf("another session: %+v, %v", d, err)
	}
	_, err = b.ForgetPerson(t.Context(), who.Owner(), name)
	refusedFor(t, "forgotten twice", err, "there is no student")
	_, err = b.Rebuild(t.Context(), who.Owner(), nil)
	must(t, err)
	if all, err := b.Students(t.Context(), 0); err != nil || len(all) != 1 || all[0] != "Bo Example" {
		t.Errorf("%q, %v", all, err)
	}
}

// TestForgetPersonDamaged: what cannot be read of a session that names somebody is told, and keeps nobody from being
// forgotten everywhere else.
func TestForgetPersonDamaged(t *testing.T) {
	b := open(t)
	const name = "Ada Example"
	own := judgeable(t, b, began, name)
	first := judgeable(t, b, began.Add(time.Hour), "Bo Example")
	second := judgeable(t, b, began.Add(2*time.Hour), "Bo Example")
	for _, id := range []string{first, second} {
		_, err := b.Remark(who.Owner(), id, logbook.Remark{Words: "flown with " + name})
		must(t, err)
	}
	acts := filepath.Join(b.Dir(), first, folder.ActsFile)
	text, err := os.ReadFile(acts)
	must(t, err)
	must(t, os.WriteFile(acts, append(text, []byte("{\"words\":\"by ada example\n")...), 0o600))
	f, err := b.ForgetPerson(t.Context(), who.Owner(), name)
	must(t, err)
	if len(f.Sessions) != 1 || f.Sessions[0] != own || len(f.Named) != 2 || len(f.Left) != 0 {
		t.Errorf("%+v", f)
	}
	if len(f.Damaged) != 1 || !strings.HasPrefix(f.Damaged[0], acts+": line 2 cannot be read: ") {
		t.Errorf("damaged is %q", f.Damaged)
	}
	for _, id := range []string{first, second} {
		if files, _, err := folder.Holding(filepath.Join(b.Dir(), id), name); err != nil || len(files) > 0 {
			t.Errorf("the name still stands in %q, %v", files, err)
		}
	}
}

// recorded puts a recording with comments into a folder.
func recorded(t *testing.T, dir string, comments ...string) {
	t.Helper()
	r := record.Begin(dir, record.Options{Station: "seat", Section: func(int) string { return comments[0] }})
	from, to := netip.MustParseAddrPort("127.0.0.1:1"), netip.MustParseAddrPort("127.0.0.1:7181")
	r.Add([]byte("datagram"), from, to, began, comments...)
	must(t, r.Close(comments...))
	files := folder.Recording(dir)
	if len(files) == 0 {
		t.Fatal("nothing was recorded")
	}
	must(t, record.Compress(files[0]))
}

// What is said of a step is kept with the number of legs so far, once for a step of a course; a signature covers it,
// and what comes later counts as after it. What cannot be kept is refused.
func TestRule(t *testing.T) {
	b, err := Open(t.TempDir(), Options{Engine: sqlite.Engine{}})
	must(t, err)
	defer b.Close()
	id := judgeable(t, b, began, "Ada Example")
	first := logbook.CourseChoice{Course: "first"}
	built := logbook.CourseChoice{Course: "weakness", Cause: "c", Maneuver: "m"}
	passed := logbook.Ruling{Course: first, Step: "a", Verdict: logbook.StepPassed, Reason: "seen\n elsewhere"}
	must(t, b.Rule(instructor, id, passed))
	passed.Course = built
	must(t, b.Rule(instructor, id, passed))
	passed.Course, passed.Verdict = first, logbook.StepNotYet
	must(t, b.Rule(instructor, id, passed), b.Sign(instructor, id, "B. Example"))
	passed.Course, passed.Verdict, passed.Reason = built, "", ""
	must(t, b.Rule(instructor, id, passed))
	j, err := b.Judging(t.Context(), id)
	must(t, err)
	if len(j.Rulings) != 1 || !j.Signed[0].Holds || j.Signed[0].After != 1 {
		t.Fatalf("%+v", j)
	}
	if r := j.Rulings[0]; r.Course != first || r.Verdict != logbook.StepNotYet || r.Legs == 0 || r.After ||
		r.By != instructor.Name || r.Reason != "seen elsewhere" {
		t.Errorf("%+v", r)
	}
	for what, r := range map[string]logbook.Ruling{
		"no reason":     {Verdict: logbook.StepPassed},
		"a long reason": {Verdict: logbook.StepPassed, Reason: strings.Repeat("x", folder.MaxReason+1)},
		"a verdict":     {Verdict: "good", Reason: "x"},
		"a long name":   {Verdict: logbook.StepPassed, Reason: "x", By: strings.Repeat("x", 200)},
	} {
		var refused *logbook.Refused
		if err := b.Rule(instructor, id, r); !errors.As(err, &refused) {
			t.Errorf("%s: %v; must be refused", what, err)
		}
	}
}
