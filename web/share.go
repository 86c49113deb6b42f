package web

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"halfturn/coach/logbook"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// A Share selects what one file of a debrief holds.
type Share struct {
	Leg   int  // its number in the session, from 1; 0 is all
	Names bool // with the student, the station and the remarks
}

// shared is the name of a session in a file: its own holds a station and a time.
const shared = "shared"

// WriteShare writes the debrief of a session as one HTML file that needs neither a server nor a network: the page, its
// styles, its modules, and the answers that it would ask a server for. The detail is what the logbook knows of the
// session; it may be nil.
func WriteShare(
	ctx context.Context, w io.Writer, f Flights, id string, detail *logbook.SessionDetail, o Share,
) error {
	if !o.Names {
		ctx = context.WithValue(ctx, namelessKey{}, true)
	}
	answers, err := sharedAnswers(ctx, f, id, detail, o)
	if err != nil {
		return err
	}
	files, err := embeddedPages()
	if err != nil {
		return err
	}
	out, err := sharedPage(files, "/session", answers)
	if err != nil {
		return err
	}
	_, err = w.Write(out)
	return err
}

// sharedAnswers are the answers of the server that the page works with, by their paths.
func sharedAnswers(
	ctx context.Context, f Flights, id string, detail *logbook.SessionDetail, o Share,
) (map[string]any, error) {
	list, err := f.Legs(ctx, id)
	if err != nil {
		return nil, err
	}
	list.Version, list.Session = apiVersion, shared
	if o.Leg > len(list.Legs) {
		return nil, &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoSuchLeg.Of(
			phrase.Int("legs", len(list.Legs)), phrase.Int("leg", o.Leg))}
	}
	list.Legs = slices.Clone(list.Legs)
	if o.Leg > 0 {
		list.Legs = list.Legs[o.Leg-1 : o.Leg]
	}
	const api = "api/sessions/" + shared
	answers := map[string]any{api + "/legs": list}
	for i := range list.Legs {
		n := list.Legs[i].Number
		packed, err := f.Leg(ctx, id, n)
		if err != nil {
			return nil, err
		}
		if answers[api+"/legs/"+strconv.Itoa(n)], err = sharedLeg(packed); err != nil {
			return nil, err
		}
	}
	if detail != nil {
		answers[api] = sharedDetail(*detail, o)
	}
	return answers, nil
}

// sharedLeg unpacks a leg, and takes the name of its session out.
func sharedLeg(packed []byte) (map[string]json.RawMessage, error) {
	plain, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, err
	}
	var leg map[string]json.RawMessage
	if err := json.NewDecoder(plain).Decode(&leg); err != nil {
		return nil, err
	}
	leg["session"] = json.RawMessage(strconv.Quote(shared))
	return leg, nil
}

// sharedDetail is what the logbook knows, without what tells who it was unless that is wanted.
func sharedDetail(d logbook.SessionDetail, o Share) logbook.SessionDetail {
	d.ID = shared
	if !o.Names {
		d.Student, d.Station, d.Said, d.Remarks, d.Found = "", "", []logbook.Remark{}, 0, ""
		d.Judging = WithoutNames(&d.Judging)
	}
	if o.Leg > 0 {
		d.Said = slices.DeleteFunc(slices.Clone(d.Said), func(r logbook.Remark) bool {
			return r.Leg != 0 && r.Leg != o.Leg // the leg it is about is not in the file
		})
	}
	return d
}

// namelessKey is the key in the context of a share that names nobody.
type namelessKey struct{}

// Nameless reports whether what is asked for is to be shared without names, and without the words of people.
func Nameless(ctx context.Context) bool {
	is, _ := ctx.Value(namelessKey{}).(bool)
	return is
}

// WithoutNames is what people made of grades without who they are, and without their words.
func WithoutNames(j *logbook.Judging) logbook.Judging {
	out := logbook.Judging{
		Overruled: slices.Clone(j.Overruled),
		Observed:  slices.Clone(j.Observed),
		Ratings:   slices.Clone(j.Ratings),
		Signed:    slices.Clone(j.Signed),
		Rulings:   slices.Clone(j.Rulings),
	}
	for i := range out.Overruled {
		out.Overruled[i].By, out.Overruled[i].Reason = "", ""
	}
	for i := range out.Observed {
		out.Observed[i].By = ""
	}
	for i := range out.Ratings {
		out.Ratings[i].By = ""
	}
	for i := range out.Signed {
		out.Signed[i].By = ""
	}
	for i := range out.Rulings {
		out.Rulings[i].By, out.Rulings[i].Reason = "", ""
	}
	return out
}

var (
	styleLink  = regexp.MustCompile(`<link rel="stylesheet" href="(?:\.\./)?([^"]+)">`)
	otherLink  = regexp.MustCompile(`\s*<link rel="(icon|apple-touch-icon|manifest)"[^>]*>`)
	navigation = regexp.MustCompile(`\s*<ht-nav[^>]*></ht-nav>`)
	pageScript = regexp.MustCompile(`<script type="module" src="(?:\.\./)?([^"]+)"></script>`)
	imported   = regexp.MustCompile(`((?:from|import) )'(\.{1,2}/[^']+\.js)'`)
)

// sharedPolicy lets the file run what it holds, and load nothing.
const sharedPolicy = `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; ` +
	`style-src 'unsafe-inline'; script-src 'unsafe-inline' data:; img-src data: blob:">`

// sharedPage is a page with all that it needs inside.
func sharedPage(files map[string]page, name string, answers map[string]any) ([]byte, error) {
	modules := map[string]string{}
	if err := gather(files, name+".js", modules); err != nil {
		return nil, err
	}
	imports, err := json.Marshal(map[string]any{"imports": modules})
	if err != nil {
		return nil, err
	}
	data, err := json.Marshal(answers) // it writes < and > as escapes: nothing in it ends the element
	if err != nil {
		return nil, err
	}
	html := string(files[name+".html"].data)
	html = otherLink.ReplaceAllLiteralString(html, "")
	html = navigation.ReplaceAllLiteralString(html, "")
	html = strings.Replace(html, "<html ", `<html data-shared="true" `, 1)
	html = strings.Replace(html, `<meta charset="utf-8">`, `<meta charset="utf-8">`+"\n  "+sharedPolicy, 1)
	html = styleLink.ReplaceAllStringFunc(html, func(link string) string {
		return "<style>\n" + string(files["/"+styleLink.FindStringSubmatch(link)[1]].data) + "</style>"
	})
	entry := pageScript.FindStringSubmatch(html)
	if entry == nil {
		return nil, fmt.Errorf("%s.html has no script of its own", name)
	}
	script := fmt.Sprintf(`<script type="importmap">%s</script>
  <script type="application/json" id="shared">%s</script>
  <script type="module">import 'halfturn/%s';</script>`, imports, data, entry[1])
	return []byte(strings.Replace(html, entry[0], script, 1)), nil
}

// gather puts a module and those it imports into the map, each as an address that holds it whole.
func gather(files map[string]page, name string, into map[string]string) error {
	file, ok := files[name]
	if !ok {
		return fmt.Errorf("a page imports %s, which is not there", name)
	}
	into["halfturn"+name] = "" // so that a circle ends
	var broken error
	text := imported.ReplaceAllStringFunc(string(file.data), func(s string) string {
		m := imported.FindStringSubmatch(s)
		other := path.Join(path.Dir(name), m[2])
		if _, known := into["halfturn"+other]; !known && broken == nil {
			broken = gather(files, other, into)
		}
		return m[1] + "'halfturn" + other + "'"
	})
	// What a module finds beside itself, one that is an address of its own finds beside the page.
	text = strings.ReplaceAll(text, "import.meta.url", "document.baseURI")
	into["halfturn"+name] = "data:text/javascript;base64," + base64.StdEncoding.EncodeToString([]byte(text))
	return broken
}

// share sends a session as one file; ?leg=N only that leg, ?names=1 with who flew and what was remarked.
func (s *Server) share(w http.ResponseWriter, r *http.Request) error {
	if s.cfg.Flights == nil {
		return noRecordings()
	}
	id, q := r.PathValue("id"), r.URL.Query()
	o := Share{Names: q.Get("names") == "1"}
	name := "debrief"
	if leg := q.Get("leg"); leg != "" {
		n, err := legNumber(leg)
		if err != nil {
			return err
		}
		o.Leg = n
		name += "_leg-" + leg
	}
	var detail *logbook.SessionDetail
	if s.cfg.Logbook != nil {
		d, err := s.cfg.Logbook.Session(r.Context(), id)
		if err != nil {
			return told(err)
		}
		detail = d
	}
	out := &lateHeader{w: w, none: r.Method == http.MethodHead, header: func(h http.Header) {
		h.Set("Content-Type", "text/html; charset=utf-8")
		h.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name + ".html"}))
		h.Set("Cache-Control", "no-store")
	}}
	err := WriteShare(r.Context(), out, s.cfg.Flights, id, detail, o)
	if errors.Is(err, errNoBody) {
		return nil
	}
	return err
}
