package certificates

import (
	"fmt"
	"path/filepath"
	"strings"
	"time"
)

// instructions say what to do with the files.
func instructions(dir string, hosts []string, fresh bool, until time.Time) string {
	var b strings.Builder
	fmt.Fprintf(&b, "The certificate is for %s, until %s.\n\n", strings.Join(hosts, ", "), until.Format(time.DateOnly))
	b.WriteString("1. Put this into the configuration, and start Halfturn again:\n\n")
	fmt.Fprintf(&b, "[tls]\ncertificate = %q\nkey = %q\n\n", filepath.Join(dir, serverFile),
		filepath.Join(dir, serverKey))
	if !fresh {
		b.WriteString("The authority is the one of before; nothing needs to be done on the other devices.\n")
		return b.String()
	}
	file := filepath.Join(dir, authorityFile)
	fmt.Fprintf(&b, `2. Take %s to each device that opens the pages, and have it trusted there:

   Windows        as an administrator: certutil -addstore -f Root %s
   macOS          sudo security add-trusted-cert -d -r trustRoot -k /Library/Keychains/System.keychain %s
   Debian, Ubuntu copy it to /usr/local/share/ca-certificates/halfturn.crt; then sudo update-ca-certificates
   Fedora         copy it to /etc/pki/ca-trust/source/anchors/; then sudo update-ca-trust
   iPhone, iPad   open it there, install the profile in Settings; then switch it on in General, About, Certificate
                  Trust Settings
   Android        Settings, Security, Encryption & credentials, Install a certificate, CA certificate
   Firefox        Settings, Privacy & Security, Certificates, View Certificates, Authorities, Import

3. Keep %s to yourself: whoever has it can pass for any server to those devices. When no further
   certificate is to be made, delete it.
`, file, authorityFile, authorityFile, filepath.Join(dir, authorityKey))
	return b.String()
}
