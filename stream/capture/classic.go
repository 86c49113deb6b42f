package capture

import (
	"bufio"
	"io"

	"github.com/gopacket/gopacket/pcapgo"

	"halfturn/stream/phrase"
)

// largestPacket is what capture programs take as the longest packet; a longer one is a
// damaged length.
const largestPacket = 262144

// classicReader reads the pcap format: a header of 24 bytes, then packets, each behind 16
// bytes of time and lengths (pcap-savefile(5) of libpcap).
type classicReader struct {
	in   *pcapgo.Reader
	link int
}

func newClassicReader(in *bufio.Reader) (*classicReader, error) {
	const size = 24
	if _, err := in.Peek(size); err != nil { // a cut file, not a wrong header
		return nil, &CutError{Err: unexpected(err)}
	}
	r, err := pcapgo.NewReader(in)
	if err != nil {
		return nil, &FormatError{phrase.CaptureHeader.Of(phrase.Name("why", err.Error()))}
	}
	link := int(r.LinkType()) // without the length of the frame check sequence above it
	if linkBytes(link) < 0 {
		return nil, &FormatError{phrase.CaptureLink.Of(phrase.Int("link", link))}
	}
	// The file's own limit may be anything, and pcapgo reads packets as long as it allows.
	r.SetSnaplen(min(r.Snaplen(), largestPacket))
	return &classicReader{in: r, link: link}, nil
}

func (r *classicReader) next(p *packet) error {
	data, info, err := r.in.ZeroCopyReadPacketData()
	if err != nil {
		if info.CaptureLength > 0 { // the file ends behind a packet's times and lengths
			err = unexpected(err)
		}
		return err
	}
	p.data, p.time, p.link = data, info.Timestamp, r.link
	return nil
}

// unexpected turns the end of a file into the end of a broken file.
func unexpected(err error) error {
	if err == io.EOF {
		return io.ErrUnexpectedEOF
	}
	return err
}
