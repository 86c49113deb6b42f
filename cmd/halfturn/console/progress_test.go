package console

import (
	"bytes"
	"testing"
)

func TestProgress(t *testing.T) {
	p := &Progress{of: 3, n: 1, columns: 40}
	const want = "[========                ] 1/3  flight-w"
	if got := p.line("some/folder/flight-with-a-long-name.pcap"); got != want[:39] {
		t.Errorf("the line is %q", got)
	}
	var b bytes.Buffer
	p = NewProgress(&b, 9)
	p.Step("one.pcap")
	p.Clear()
	if b.Len() > 0 {
		t.Errorf("a bar where there is no terminal: %q", b.String())
	}
}
