package main

import (
	"encoding/json"
	"encoding/xml"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/alecthomas/kong"

	"halfturn/coach/logbook/postgres/db"
	"halfturn/configs/settings"
)

// serviceFile is a file by which Halfturn is run as a service.
func serviceFile(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "configs", "service", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// serves fails unless arguments are a call of halfturn serve, and returns what it says.
func serves(t *testing.T, args []string) *serveCmd {
	t.Helper()
	var c cli
	parser, err := kong.New(&c, kong.PostBuild(expanded))
	if err != nil {
		t.Fatal(err)
	}
	parsed, err := parser.Parse(args)
	if err != nil {
		t.Fatalf("%v: %v", args, err)
	}
	if parsed.Command() != "serve" {
		t.Errorf("%v: is the command %s; must be serve", args, parsed.Command())
	}
	return &c.Serve
}

// unit are the values of a unit of systemd, by key; see systemd.syntax(7).
func unit(text string) map[string][]string {
	all := map[string][]string{}
	for line := range strings.Lines(text) {
		key, value, is := strings.Cut(strings.TrimSpace(line), "=")
		if is && !strings.HasPrefix(key, "#") {
			all[key] = append(all[key], value)
		}
	}
	return all
}

// The unit calls the command as it is, keeps sessions where it may write, and holds what it is hardened by; systemd,
// where it is installed, finds nothing wrong with it. The names are those of systemd.exec(5).
func TestUnit(t *testing.T) {
	u := unit(serviceFile(t, "halfturn.service"))
	start := strings.Fields(strings.Join(u["ExecStart"], " "))
	s := serves(t, start[1:])
	if s.Data == nil || *s.Data != "/var/lib/"+strings.Join(u["StateDirectory"], " ") {
		t.Errorf("sessions are kept in %v, and StateDirectory is %v", s.Data, u["StateDirectory"])
	}
	if s.Config != "/etc/"+strings.Join(u["ConfigurationDirectory"], " ")+"/halfturn.toml" {
		t.Errorf("the configuration is %s", s.Config)
	}
	for key, value := range map[string]string{
		"DynamicUser":             "yes",
		"ProtectSystem":           "strict",
		"NoNewPrivileges":         "yes",
		"CapabilityBoundingSet":   "",
		"RestrictAddressFamilies": "AF_INET AF_INET6 AF_NETLINK",
		"ExecReload":              "/bin/kill -HUP $MAINPID",
	} {
		if !slices.Equal(u[key], []string{value}) {
			t.Errorf("%s is %q; must be %q", key, u[key], value)
		}
	}
	if !slices.Contains(u["SystemCallFilter"], "@system-service") {
		t.Errorf("SystemCallFilter is %q", u["SystemCallFilter"])
	}
	verify, err := exec.LookPath("systemd-analyze")
	if err != nil {
		t.Skip("systemd is not installed")
	}
	file := filepath.Join(t.TempDir(), "halfturn.service")
	text := strings.ReplaceAll(serviceFile(t, "halfturn.service"), start[0], "/bin/true") // it is not installed here
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(verify, "verify", "--man=no", file).CombinedOutput(); err != nil || len(out) > 0 {
		t.Errorf("systemd-analyze verify: %v\n%s", err, out)
	}
}

// The drop-in of a node starts it as the unit does, as one of a cluster.
func TestUnitOfNode(t *testing.T) {
	alone := unit(serviceFile(t, "halfturn.service"))["ExecStart"]
	starts := unit(serviceFile(t, "halfturn-cluster.conf"))["ExecStart"]
	if len(starts) != 2 || starts[0] != "" { // systemd.service(5): an empty one takes back that of the unit
		t.Fatalf("ExecStart is %q; must be an empty one and another", starts)
	}
	if file := "/etc/halfturn/cluster.toml"; starts[1] != alone[0]+" --cluster "+file {
		t.Errorf("ExecStart is %q; must be that of the unit with --cluster %s", starts[1], file)
	}
	if s := serves(t, strings.Fields(starts[1])[1:]); s.Cluster == "" {
		t.Error("it is no node of a cluster")
	}
}

// What the description asks of the engines is what the program asks.
func TestClusterDescription(t *testing.T) {
	source := func(path ...string) string {
		text, err := os.ReadFile(filepath.Join(append([]string{"..", ".."}, path...)...))
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	found := func(pattern, in string) []string {
		all := regexp.MustCompile(pattern).FindStringSubmatch(in)
		if all == nil {
			t.Fatalf("nothing is like %s", pattern)
		}
		return all[1:]
	}
	nats := found(`leastVersion = \[2\]int\{(\d+), (\d+)\}`, source("web", "cluster", "flow", "nats", "make.go"))
	postgres := found(`oldest = (\d+)_000`, source("coach", "logbook", "postgres", "db", "look.go"))[0]
	text := strings.Join(strings.Fields(serviceFile(t, "README.md")), " ")
	for _, words := range []string{
		"**NATS** " + strings.Join(nats, ".") + " or later",
		"**PostgreSQL** " + strings.TrimSuffix(postgres, "0") + " or later",
		fmt.Sprintf("up to %d connections for each node", db.MostOfNode),
	} {
		if !strings.Contains(text, words) {
			t.Errorf("lacks %q", words)
		}
	}
	metrics := serviceFile(t, "METRICS.md")
	for _, name := range regexp.MustCompile(`halfturn_\w+`).FindAllString(text, -1) {
		if !strings.Contains(metrics, "| `"+name+"` |") {
			t.Errorf("%s is no metric", name)
		}
	}
}

// The property list of launchd calls the command as it is; see launchd.plist(5).
func TestPropertyList(t *testing.T) {
	var list struct {
		Arguments []string `xml:"dict>array>string"`
		Keys      []string `xml:"dict>key"`
	}
	if err := xml.Unmarshal([]byte(serviceFile(t, "halfturn.plist")), &list); err != nil {
		t.Fatal(err)
	}
	if len(list.Arguments) < 2 || !filepath.IsAbs(list.Arguments[0]) {
		t.Fatalf("ProgramArguments are %q", list.Arguments)
	}
	serves(t, list.Arguments[1:])
	for _, key := range []string{"Label", "ProgramArguments", "RunAtLoad", "KeepAlive"} {
		if !slices.Contains(list.Keys, key) {
			t.Errorf("lacks %s", key)
		}
	}
}

// The task of Windows calls the command as it is, and has no limit of time, which is three days otherwise.
func TestTask(t *testing.T) {
	var task struct {
		Command   string `xml:"Actions>Exec>Command"`
		Arguments string `xml:"Actions>Exec>Arguments"`
		Limit     string `xml:"Settings>ExecutionTimeLimit"`
	}
	if err := xml.Unmarshal([]byte(serviceFile(t, "halfturn-task.xml")), &task); err != nil {
		t.Fatal(err)
	}
	serves(t, strings.Fields(task.Arguments))
	if !strings.HasSuffix(task.Command, `\halfturn.exe`) || task.Limit != "PT0S" {
		t.Errorf("%+v", task)
	}
}

// The image runs the command as it is, as nobody, on the ports that it opens and in the folder that it keeps.
func TestContainer(t *testing.T) {
	text := serviceFile(t, "Containerfile")
	_, image, ok := strings.Cut(text, "\nFROM scratch\n")
	if !ok {
		t.Fatal("the image is not made from scratch")
	}
	said := map[string]string{}
	for line := range strings.Lines(image) {
		word, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
		said[word] = rest
	}
	var entry, args []string
	if err := json.Unmarshal([]byte(said["ENTRYPOINT"]), &entry); err != nil || len(entry) != 1 {
		t.Fatalf("ENTRYPOINT %s: %v", said["ENTRYPOINT"], err)
	}
	if err := json.Unmarshal([]byte(said["CMD"]), &args); err != nil {
		t.Fatalf("CMD %s: %v", said["CMD"], err)
	}
	serves(t, args)
	env := map[string]string{}
	for _, f := range strings.Fields(said["ENV"]) {
		key, value, _ := strings.Cut(f, "=")
		env[key] = value
	}
	cfg, err := settings.Load("", func(k string) (string, bool) { v, ok := env[k]; return v, ok })
	if err != nil {
		t.Fatal(err)
	}
	ports := strings.TrimPrefix(cfg.HTTP, ":") + "/tcp " + strings.TrimPrefix(cfg.UDP[0], ":") + "/udp"
	if said["EXPOSE"] != ports || said["VOLUME"] != cfg.Data || said["USER"] != "65534:65534" || len(env) != 4 {
		t.Errorf("EXPOSE is %s, VOLUME %s, USER %s; the program is told %v", said["EXPOSE"], said["VOLUME"],
			said["USER"], env)
	}
	if !regexp.MustCompile(`FROM \S*golang:` + goVersion(t) + ` AS build`).MatchString(text) {
		t.Error("it is built by another version of Go than go.mod says")
	}
}

// goVersion is the version of Go in go.mod, as "1.26".
func goVersion(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	return regexp.QuoteMeta(regexp.MustCompile(`(?m)^go (\d+\.\d+)`).FindStringSubmatch(string(text))[1])
}

// The description names every file, and every key that is read again is in it.
func TestServiceDescription(t *testing.T) {
	text := serviceFile(t, "README.md")
	for _, words := range []string{
		"halfturn.service", "halfturn-cluster.conf", "cluster.toml",
		"halfturn.plist", "halfturn-task.xml", "Containerfile", "halfturn doctor",
		"`log.level`", "`max-rate`", "`max-stations`", "`judging`", "`cards`", "`recording.compress`", "`keep-days`",
		"`keep-size`", "`tls`",
	} {
		if !strings.Contains(text, words) {
			t.Errorf("lacks %s", words)
		}
	}
}
