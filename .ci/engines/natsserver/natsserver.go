// Package natsserver starts NATS servers for tests: in the process of the test, which is quick, or as processes of
// their own, which can be killed and frozen as real ones are.
package natsserver

import (
	"fmt"
	"net"
	"net/url"
	"testing"
	"time"

	"github.com/nats-io/nats-server/v2/server"
)

// patience is how long servers may take to find each other: on a busy machine far longer than on an idle one.
const patience = 60 * time.Second

// A Config is what one server needs to know. It is passed to processes as JSON.
type Config struct {
	Name   string
	Port   int   // of clients
	Route  int   // port for the other servers
	Routes []int // of all; empty: it is alone
	Dir    string
	User   string // with Password; "": everybody may connect
	Pass   string
	// MaxPayload is the longest message, bytes; 0 is what the server has by itself.
	MaxPayload int
	NoStream   bool     // without JetStream
	MaxStore   int64    // bytes on disk; 0 is what the server takes by itself
	Deny       []string // subjects on which User may not publish
}

// Configs are of servers that find each other, each with a folder below dir.
func Configs(t testing.TB, n int) []Config {
	t.Helper()
	ports := freePorts(t, 2*n)
	all := make([]Config, n)
	for i := range all {
		all[i] = Config{Name: fmt.Sprint("n", i), Port: ports[i], Dir: t.TempDir()}
		if n > 1 {
			all[i].Route, all[i].Routes = ports[n+i], ports[n:]
		}
	}
	return all
}

// freePorts finds ports of this machine that nobody listens to.
func freePorts(t testing.TB, n int) (all []int) {
	t.Helper()
	for range n {
		l, err := net.Listen("tcp", "127.0.0.1:0")
		if err != nil {
			t.Fatal(err)
		}
		defer l.Close() // when all are found, so that they differ
		all = append(all, l.Addr().(*net.TCPAddr).Port)
	}
	return all
}

// URL is where clients connect.
func (c Config) URL() string { return fmt.Sprintf("nats://127.0.0.1:%d", c.Port) }

// options are those of the server.
func (c Config) options() *server.Options {
	o := &server.Options{
		ServerName: c.Name,
		Host:       "127.0.0.1",
		Port:       c.Port,
		JetStream:  !c.NoStream,
		StoreDir:   c.Dir,
		NoLog:      true,
		NoSigs:     true,
		Username:   c.User,
		Password:   c.Pass,
		MaxPayload: int32(c.MaxPayload),

		JetStreamMaxStore: c.MaxStore,
	}
	if len(c.Deny) > 0 {
		o.Username, o.Password = "", ""
		o.Users = []*server.User{{Username: c.User, Password: c.Pass, Permissions: &server.Permissions{
			Publish: &server.SubjectPermission{Deny: c.Deny},
		}}}
	}
	if len(c.Routes) > 0 {
		// Clients are given the addresses of all, behind which there may be relays: they are told no others.
		o.Cluster = server.ClusterOpts{Name: "test", Host: "127.0.0.1", Port: c.Route, NoAdvertise: true}
		for _, port := range c.Routes {
			o.Routes = append(o.Routes, &url.URL{Scheme: "nats", Host: fmt.Sprint("127.0.0.1:", port)})
		}
	}
	return o
}

// run starts a server.
func (c Config) run() (*server.Server, error) {
	s, err := server.NewServer(c.options())
	if err != nil {
		return nil, err
	}
	go s.Start()
	if !s.ReadyForConnections(patience) {
		s.Shutdown()
		return nil, fmt.Errorf("server %s does not take clients", c.Name)
	}
	return s, nil
}

// Run starts servers in this process, and stops them when the test is over. Change may change what they are; nil does
// not. It returns their URLs.
func Run(t testing.TB, n int, change func(*Config)) (urls []string) {
	t.Helper()
	configs := Configs(t, n)
	servers := make([]*server.Server, n)
	for i := range configs {
		if change != nil {
			change(&configs[i])
		}
		s, err := configs[i].run()
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() {
			s.Shutdown()
			s.WaitForShutdown()
		})
		servers[i] = s
		urls = append(urls, configs[i].URL())
	}
	for late := time.After(patience); !together(configs, servers); {
		select {
		case <-time.After(10 * time.Millisecond):
		case <-late:
			t.Fatal("the servers do not find each other")
		}
	}
	return urls
}

// together says whether all servers have joined, and one leads them. Only the leader knows all peers.
func together(configs []Config, servers []*server.Server) (leads bool) {
	if len(servers) == 1 || configs[0].NoStream {
		return true
	}
	for _, s := range servers {
		if !s.JetStreamIsCurrent() {
			return false
		}
		leads = leads || s.JetStreamIsLeader() && len(s.JetStreamClusterPeers()) == len(servers)
	}
	return leads
}
