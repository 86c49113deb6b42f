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
			t.Errorf("%s: %s; must be %s", c.name, got, c.want)
		}
	}
}

// An address is of a list when a network of it holds the address, whatever zone it came with.
func TestContains(t *testing.T) {
	asked := []netip.Prefix{netip.MustParsePrefix("192.168.1.0/24"), netip.MustParsePrefix("fe80::/64")}
	list := Allowed(asked, true, nil)
	for address, want := range map[string]bool{
		"127.0.0.1":        true,
		"127.255.255.255":  true, // RFC 1122, 3.2.1.3: all of 127/8 is loopback
		"::1":              true,
		"192.168.1.255":    true,
		"192.168.2.0":      false,
		"128.0.0.1":        false,
		"fe80::1":          true,
		"fe80::1%eth0":     true,
		"fe80:0:0:1::1":    false,
		"::2":              false,
		"::ffff:127.0.0.1": false, // ingest hands on IPv4 addresses as such
	} {
		if got := list.Contains(netip.MustParseAddr(address)); got != want {
			t.Errorf("%s: %v; must be %v", address, got, want)
		}
	}
	if (List)(nil).Contains(netip.MustParseAddr("127.0.0.1")) {
		t.Error("an empty list holds an address")
	}
}

// What is asked for twice is listed once, in the order of addresses.
func TestAllowedOnce(t *testing.T) {
	twice := []netip.Prefix{netip.MustParsePrefix("203.0.113.0/24"), netip.MustParsePrefix("10.0.0.0/8"),
		netip.MustParsePrefix("10.0.0.0/16"), netip.MustParsePrefix("203.0.113.0/24"), loopbacks[0]}
	const want = "10.0.0.0/8, 10.0.0.0/16, 127.0.0.0/8, 203.0.113.0/24, ::1/128"
	if got := Allowed(twice, false, nil).String(); got != want {
		t.Errorf("%s; must be %s", got, want)
	}
	if len(loopbacks) != 2 {
		t.Errorf("the loopbacks are now %v", loopbacks)
	}
}

// The machine has loopback, and each network is an address with its length.
func TestOwn(t *testing.T) {
	loopback := false
	for _, p := range Own() {
		if !p.IsValid() || p.Addr().Is4In6() {
			t.Errorf("%v is no network", p)
		}
		loopback = loopback || p.Addr().IsLoopback()
	}
	if !loopback {
		t.Errorf("no loopback among %v", Own())
	}
}
