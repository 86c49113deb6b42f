package web

import (
	"net/http"

	"halfturn/coach/logbook"
	"halfturn/web/guard"
)

// A NewRemark is the body of POST /api/sessions/{id}/remarks.
type NewRemark struct {
	Leg   int      `json:"leg"`
	Time  *float64 `json:"time"`
	By    string   `json:"by"`
	Words string   `json:"words"`
	Mark  string   `json:"mark,omitempty"` // the key of a mark, whose words these are
}

// maxRemark bounds the body of a remark: a letter may take several bytes.
const maxRemark = 32 << 10

func (s *Server) remark(b Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	var n NewRemark
	const form = `{"leg": NUMBER or 0, "time": SECONDS or null, "by": NAME, "words": TEXT}, ` +
		`and "mark": ID for the words of a mark`
	if err := guard.Body(maxRemark, w, r, &n, form); err != nil {
		return nil, err
	}
	return b.Remark(asks(r), r.PathValue("id"),
		logbook.Remark{Leg: n.Leg, Time: n.Time, By: n.By, Words: n.Words, Mark: n.Mark})
}
