// Command versitygw is the S3 server that tests run against: a real one, on a folder, as its module offers it to other
// programs. The module's own command can stand before other stores too, which take half as long again to build.
//
//	ROOT_ACCESS_KEY=KEY ROOT_SECRET_KEY=SECRET versitygw HOST:PORT DIR [BESIDE]
//
// What the file system cannot note with a file is kept in the folder BESIDE.
package main

import (
	"context"
	"log"
	"os"

	"github.com/versity/versitygw/backend/meta"
	"github.com/versity/versitygw/backend/posix"
	"github.com/versity/versitygw/embedgw"
)

func main() {
	log.SetFlags(0)
	log.SetPrefix("versitygw: ")
	if n := len(os.Args); n < 3 || n > 4 {
		log.Fatal("usage: versitygw HOST:PORT DIR [BESIDE]")
	}
	if err := serve(os.Args[1], os.Args[2], os.Args[3:]); err != nil {
		log.Fatal(err)
	}
}

// serve serves until it is killed.
func serve(address, dir string, beside []string) error {
	var notes meta.MetadataStorer = meta.XattrMeta{}
	var how posix.PosixOpts
	if len(beside) > 0 {
		car, err := meta.NewSideCar(beside[0])
		if err != nil {
			return err
		}
		notes, how.SideCarDir = car, beside[0]
	}
	store, err := posix.New(dir, notes, how)
	if err != nil {
		return err
	}
	defer store.Shutdown()
	return embedgw.RunVersityGW(context.Background(), store, &embedgw.Config{
		RootUserAccess:    os.Getenv("ROOT_ACCESS_KEY"),
		RootUserSecret:    os.Getenv("ROOT_SECRET_KEY"),
		Ports:             []string{address},
		MaxConnections:    10_000,
		MaxRequests:       10_000,
		MultipartMaxParts: 10_000,
		HealthPath:        "/healthz",
		Quiet:             true,
	})
}
