package pgtest

import (
	"os"
	"os/user"
	"strconv"
	"syscall"
)

// account is who PostgreSQL runs as: it refuses to be run by root.
func account() (*syscall.Credential, error) {
	if os.Getuid() != 0 {
		return nil, nil
	}
	u, err := user.Lookup("postgres")
	if err != nil {
		return nil, err
	}
	uid, err := strconv.ParseUint(u.Uid, 10, 32)
	if err != nil {
		return nil, err
	}
	gid, err := strconv.ParseUint(u.Gid, 10, 32)
	return &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}, err
}

// processOf makes children run as somebody whom PostgreSQL accepts and who owns a folder, and end with the tests.
func processOf(dir string) (*syscall.SysProcAttr, error) {
	as, err := account()
	if as != nil && err == nil {
		err = os.Chown(dir, int(as.Uid), int(as.Gid))
	}
	return &syscall.SysProcAttr{Credential: as, Pdeathsig: syscall.SIGQUIT}, err
}
