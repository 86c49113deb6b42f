package certificates

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"time"

	"halfturn/coach/layout"
	"halfturn/stream/phrase"
)

// A trust says how a system is made to trust an authority: by commands, or by steps on its screens.
type trust struct {
	system   string
	steps    string
	commands []string
}

// trusts are how each system is made to trust the authority, whose file has this name.
func trusts(in *phrase.Language, file string) []trust {
	return []trust{
		{
			system:   "Windows, " + in.Word("as an administrator"),
			commands: []string{"certutil -addstore -f Root " + file},
		},
		{
			system: "macOS",
			commands: []string{
				"sudo security add-trusted-cert -d -r trustRoot -k /Library/Keychains/System.keychain " + file,
			},
		},
		{
			system: "Debian, Ubuntu",
			commands: []string{
				"sudo cp " + file + " /usr/local/share/ca-certificates/halfturn.crt",
				"sudo update-ca-certificates",
			},
		},
		{
			system:   "Fedora",
			commands: []string{"sudo cp " + file + " /etc/pki/ca-trust/source/anchors/", "sudo update-ca-trust"},
		},
		{
			system: "iPhone, iPad",
			steps: in.Word("open it there, install the profile in Settings; then switch it on in General, About, " +
				"Certificate Trust Settings"),
		},
		{
			system: "Android",
			steps:  in.Word("Settings, Security, Encryption & credentials, Install a certificate, CA certificate"),
		},
		{
			system: "Firefox",
			steps:  in.Word("Settings, Privacy & Security, Certificates, View Certificates, Authorities, Import"),
		},
	}
}

// instruct says what to do with the files. What is to be copied, a command or a part of the configuration, is not
// folded.
func instruct(w io.Writer, in *phrase.Language, dir string, hosts []string, fresh bool, until time.Time) error {
	page := layout.NewPage(w)
	fmt.Fprintf(page, "%s\n\n", in.Wordf("The certificate is for %s, until %s.", strings.Join(hosts, ", "),
		until.Format(time.DateOnly)))
	fmt.Fprintf(page, "1. %s\n\n", in.Word("Put this into the configuration, and start Halfturn again:"))
	fmt.Fprintf(w, "[tls]\ncertificate = %q\nkey = %q\n\n", filepath.Join(dir, serverFile),
		filepath.Join(dir, serverKey))
	if !fresh {
		fmt.Fprintln(page, in.Word("The authority is the same as before; nothing needs to be done on the other "+
			"devices."))
		return page.Err()
	}
	fmt.Fprintf(page, "2. %s\n\n", in.Wordf("Take %s to each device that opens the pages, and have it trusted there:",
		filepath.Join(dir, authorityFile)))
	for _, t := range trusts(in, authorityFile) {
		if t.steps != "" {
			fmt.Fprintf(page, "   %s: %s\n", t.system, t.steps)
			continue
		}
		fmt.Fprintf(page, "   %s:\n", t.system)
		for _, c := range t.commands {
			fmt.Fprintf(w, "     %s\n", c)
		}
	}
	fmt.Fprintf(page, "\n3. %s\n", in.Wordf("Keep %s to yourself: whoever has it can pass for any server to those "+
		"devices. When no further certificate is to be made, delete it.", filepath.Join(dir, authorityKey)))
	return page.Err()
}
