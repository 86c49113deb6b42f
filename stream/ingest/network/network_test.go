package network

import (
	"net/netip"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	for in, want := range map[string]string{
		"192.168.1.20": "192.168.1.20/32", "192.168.1.77/24": "192.168.1.0/24", "fd00::1": "fd00::1/128",
		"0.0.0.0/0":       "0.0.0.0/0",
		"::ffff:10.0.0.1": "10.0.0.1/32", "seat-3": "", "192.168.1": "", "10.0.0.0/33": "", "": "", "fe80::1%eth0": "",
	} {
		got, err := Parse(in)
		if want == "" && (err == nil || !strings.Contains(err.Error(), "192.168.1.0/24")) ||
			want != "" && (err != nil || got.String() != want) {
			t.Errorf("%q: %v, %v; want %q", in, got, err, want)
		}
	}
}

// Who may send: RFC 1918, RFC 4193 and RFC 3927 name the networks that are private; 198.51.100.0/24
// and 203.0.113.0/24 stand for public ones (RFC 5737).
func TestAllowed(t *testing.T) {
	nets := func(list string) (out []netip.Prefix) {
		for s := range strings.FieldsSeq(list) {
			out = append(out, netip.MustParsePrefix(s))
		}
		return out
	}
	own := nets("127.0.0.1/8 192.168.7.9/24 198.51.100.4/24 fe80::1/64 fd12::5/48")
	for _, c := range []struct {
		name  string
		asked string
		far   bool
		want  string
	}{
		{"loopback only", "", false, "127.0.0.0/8 ::1/128"},
		{"reachable", "", true, "127.0.0.0/8 192.168.7.0/24 198.51.100.4/32 ::1/128 fd12::/48 fe80::/64"},
		{"asked", "203.0.113.0/24", true, "127.0.0.0/8 203.0.113.0/24 ::1/128"},
		{"asked and loopback only", "203.0.113.0/24", false, "127.0.0.0/8 203.0.113.0/24 ::1/128"},
	} {
		if got := strings.ReplaceAll(Allowed(nets(c.asked), c.far, own).String(), ",", ""); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}
