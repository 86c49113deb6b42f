package descriptors

import "testing"

func TestConnections(t *testing.T) {
	const most = 512
	for _, tt := range []struct{ files, stations, want int }{
		{0, 64, most}, // no limit
		{1 << 20, 64, most},
		{1 << 20, 10000, most},
		{4096, 64, most},
		{512, 64, 512 - 48 - 128},
		{256, 64, 256 - 48 - 128},
		{128, 64, 32},
		{64, 64, 16},
		{64, 1, 16},
		{1024, 10000, 256},
		{4, 64, 1},
		{1, 64, 1},
	} {
		if got := Connections(tt.files, tt.stations, most); got != tt.want {
			t.Errorf("%d files, %d stations: %d connections; must be %d", tt.files, tt.stations, got, tt.want)
		}
	}
}

// The limit that is recommended is enough, and the next smaller one is not.
func TestEnough(t *testing.T) {
	for _, stations := range []int{1, 64, 1000} {
		n := Enough(stations, 2048)
		if Connections(n, stations, 2048) != 2048 || Connections(n-1, stations, 2048) == 2048 {
			t.Errorf("%d stations: %d files", stations, n)
		}
	}
}

// The limit of this process is read: on every system here it is none, or more than the files that are open already.
func TestLimit(t *testing.T) {
	if n := Limit(); n != 0 && n < 8 {
		t.Errorf("%d files", n)
	}
}
