package capacity

import (
	"os"
	"regexp"
	"strconv"
	"strings"
)

// available is how many bytes of memory are free: what the kernel estimates, less where a control group allows less.
func available() int64 {
	text, _ := os.ReadFile("/proc/meminfo") // without it nothing is known
	most, _ := os.ReadFile("/sys/fs/cgroup/memory.max")
	used, _ := os.ReadFile("/sys/fs/cgroup/memory.current")
	return free(string(text), string(most), string(used))
}

var availableLine = regexp.MustCompile(`(?m)^MemAvailable: +(\d+) kB$`)

// free reads the texts of /proc/meminfo (proc(5)) and of memory.max and memory.current of a control group (the
// kernel's cgroup-v2 documentation); 0 where nothing is known.
func free(meminfo, most, used string) (n int64) {
	if m := availableLine.FindStringSubmatch(meminfo); m != nil {
		n, _ = strconv.ParseInt(m[1], 10, 64)
		n <<= 10
	}
	number := func(s string) (int64, error) { return strconv.ParseInt(strings.TrimSpace(s), 10, 64) }
	limit, err := number(most) // the word "max" is no limit
	is, err2 := number(used)
	if err == nil && err2 == nil && (n == 0 || limit-is < n) {
		n = max(1, limit-is)
	}
	return n
}
