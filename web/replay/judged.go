package replay

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"errors"

	"halfturn/coach"
	"halfturn/coach/assess"
	"halfturn/coach/logbook"
	"halfturn/web"
)

// Judged are flights with what people overruled in their grades: pages and shared files show the same as prints do.
type Judged struct {
	web.Flights
	// Of returns what people made of the grades of a session; a [logbook.NotFound] is nothing.
	Of func(ctx context.Context, id string) (*logbook.Judging, error)
}

// Legs lists the legs of a session, as they stand.
func (j Judged) Legs(ctx context.Context, id string) (web.FlownLegs, error) {
	list, err := j.Flights.Legs(ctx, id)
	if err != nil {
		return list, err
	}
	said, err := j.said(ctx, id)
	if err != nil || said == nil {
		return list, err
	}
	return judged(list, said), nil
}

// said is what was overruled in a session; nil when nothing was.
func (j Judged) said(ctx context.Context, id string) (*logbook.Judging, error) {
	said, err := j.Of(ctx, id)
	var none *logbook.NotFound
	if errors.As(err, &none) || err == nil && len(said.Overruled) == 0 {
		return nil, nil
	}
	if err == nil && web.Nameless(ctx) {
		bare := web.WithoutNames(said)
		said = &bare
	}
	return said, err
}

// judged is a list of legs with what was overruled.
func judged(list web.FlownLegs, said *logbook.Judging) web.FlownLegs {
	whole := make([]coach.Series, len(list.Series))
	copy(whole, list.Series)
	for i := range list.Legs {
		l := &list.Legs[i]
		for len(whole) < l.Series { // it is still being flown
			whole = append(whole, coach.Series{})
		}
		s := &whole[l.Series-1]
		s.Legs = append(s.Legs, l.Leg)
	}
	whole = assess.Series(whole, said)
	out := list
	out.Legs = make([]web.FlownSheet, 0, len(list.Legs))
	at := map[int]int{} // by series
	for i := range list.Legs {
		l := list.Legs[i]
		l.Leg = whole[l.Series-1].Legs[at[l.Series]]
		at[l.Series]++
		out.Legs = append(out.Legs, l)
	}
	out.Series = whole[:len(list.Series):len(list.Series)]
	for i := range out.Series {
		out.Series[i].Legs = nil
	}
	return out
}

// Leg returns one leg as it stands, as gzipped JSON.
func (j Judged) Leg(ctx context.Context, id string, n int) ([]byte, error) {
	data, err := j.Flights.Leg(ctx, id, n)
	if err != nil {
		return nil, err
	}
	said, err := j.said(ctx, id)
	if err != nil || said == nil {
		return data, err
	}
	list, err := j.Flights.Legs(ctx, id)
	if err != nil {
		return nil, err
	}
	for i := range list.Legs {
		if list.Legs[i].Number == n {
			return replaced(data, &judged(list, said).Legs[i].Leg)
		}
	}
	return data, nil
}

// replaced puts the grades of a leg into a packed one.
func replaced(data []byte, by *coach.Leg) ([]byte, error) {
	plain, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	var flown map[string]json.RawMessage
	if err := json.NewDecoder(plain).Decode(&flown); err != nil {
		return nil, err
	}
	var leg coach.Leg
	if err := json.Unmarshal(flown["leg"], &leg); err != nil {
		return nil, err
	}
	assess.Transfer(&leg, by)
	if flown["leg"], err = json.Marshal(&leg); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	packed := gzip.NewWriter(&b)
	if err := errors.Join(json.NewEncoder(packed).Encode(flown), packed.Close()); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
