package export

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"time"

	"halfturn/stream"
)

// The time between two points of a track.
const (
	spacing = 200 * time.Millisecond // at least: maps need no finer track
	apart   = 2 * time.Second        // at most: a longer gap in the positions interrupts the line
)

const metersPerFoot = 0.3048 // exact, by definition of the international foot

// A place is a point of a track.
type place struct {
	at                  time.Time
	latitude, longitude float64 // °
	elevation           float64 // m above mean sea level
	high                bool    // elevation is known
	broken              bool    // no line leads here from the place before
}

// A thinner takes samples and yields the places of a track.
type thinner struct {
	last   time.Time
	broken bool // the stream jumped since the last place
}

// next returns the place of a sample, and whether it belongs to the track.
func (t *thinner) next(r *row) (place, bool) {
	t.broken = t.broken || r.jump
	lat, ok1 := r.sample.Get(stream.Latitude)
	lon, ok2 := r.sample.Get(stream.Longitude)
	if !ok1 || !ok2 {
		return place{}, false
	}
	past := r.received.Sub(t.last)
	if past >= 0 && past < spacing && !t.broken {
		return place{}, false
	}
	p := place{at: r.received, latitude: lat, longitude: lon, broken: t.broken || past > apart}
	t.last, t.broken = r.received, false
	if alt, ok := r.sample.Get(stream.Altitude); ok {
		p.elevation, p.high = alt*metersPerFoot, true
	}
	return p, true
}

// text is a writer that keeps the first error.
type text struct {
	w   io.Writer
	err error
}

func (t *text) put(format string, args ...any) {
	if t.err == nil {
		_, t.err = fmt.Fprintf(t.w, format, args...)
	}
}

// escaped is text escaped for XML.
func escaped(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a buffer never fails
	return b.String()
}

// A gpx writes GPX 1.1 (https://www.topografix.com/GPX/1/1/gpx.xsd): one track, a segment for
// each part without a jump or a gap, elevation in m, times of receipt in UTC.
type gpx struct {
	text
	thinner
	title  string
	points int
}

func (g *gpx) add(r *row) error {
	p, ok := g.next(r)
	if !ok {
		return g.err
	}
	switch {
	case g.points == 0:
		g.put("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<gpx xmlns=\"http://www.topografix.com/GPX/1/1\" " +
			"version=\"1.1\" creator=\"Halfturn\">\n")
		g.put("<metadata><name>%s</name><desc>%s</desc><time>%s</time></metadata>\n", escaped(g.title),
			escaped(cautions()), zulu(p.at))
		g.put("<trk><name>%s</name><type>simulator</type><trkseg>\n", escaped(g.title))
	case p.broken:
		g.put("</trkseg><trkseg>\n")
	}
	g.points++
	g.put("<trkpt lat=\"%.7f\" lon=\"%.7f\">", p.latitude, east(p.longitude))
	if p.high {
		g.put("<ele>%.2f</ele>", p.elevation)
	}
	g.put("<time>%s</time></trkpt>\n", zulu(p.at))
	return g.err
}

// east maps a longitude of 180° to −180°: the schema of GPX excludes 180.
func east(lon float64) float64 {
	if lon >= 179.99999995 {
		return lon - 360
	}
	return lon
}

func (g *gpx) close() error {
	if g.points == 0 {
		return ErrNoPosition
	}
	g.put("</trkseg></trk>\n</gpx>\n")
	return g.err
}

// stretch is how many points a stretch of a KML track has: ten seconds of flight.
const stretch = 50

// A kml writes KML 2.2 (OGC 07-147r2): a placemark for every ten seconds or so with its time
// span and its line, drawn down to the ground. Only elements of the standard itself are used, so that
// it is valid without any vendor's extension.
type kml struct {
	text
	thinner
	title string
	begun bool
	line  []place
}

func (k *kml) add(r *row) error {
	p, ok := k.next(r)
	if !ok {
		return k.err
	}
	if !k.begun {
		k.begun = true
		k.put("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<kml "+
			"xmlns=\"http://www.opengis.net/kml/2.2\">\n<Document>\n<name>%s</name>\n<description>%s</description>\n",
			escaped(k.title), escaped(cautions()))
		k.put("<Style id=\"flown\"><LineStyle><color>ff30271c</color><width>2</width></LineStyle>" +
			"<PolyStyle><color>409aa894</color></PolyStyle></Style>\n")
	}
	if p.broken {
		k.flush()
	}
	k.line = append(k.line, p)
	if len(k.line) > stretch {
		k.flush()
		k.line = append(k.line, p) // the next stretch goes on from there
	}
	return k.err
}

// flush writes the stretch, unless it is a single point.
func (k *kml) flush() {
	if n := len(k.line); n > 1 {
		first, last := k.line[0], k.line[n-1]
		k.put("<Placemark><name>%s</name><TimeSpan><begin>%s</begin><end>%s</end></TimeSpan>"+
			"<styleUrl>#flown</styleUrl><LineString>", first.at.Format("15:04:05"), zulu(first.at), zulu(last.at))
		mode := "clampToGround"
		if first.high {
			mode = "absolute"
			k.put("<extrude>1</extrude>")
		} else {
			k.put("<tessellate>1</tessellate>")
		}
		k.put("<altitudeMode>%s</altitudeMode><coordinates>\n", mode)
		for _, p := range k.line {
			k.put("%.7f,%.7f,%.2f\n", p.longitude, p.latitude, p.elevation)
		}
		k.put("</coordinates></LineString></Placemark>\n")
	}
	k.line = k.line[:0]
}

func (k *kml) close() error {
	if !k.begun {
		return ErrNoPosition
	}
	k.flush()
	k.put("</Document>\n</kml>\n")
	return k.err
}
