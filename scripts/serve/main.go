// Command serve builds the site without the slow compression and serves it.
//
//	go run ./scripts/serve [-addr localhost:8787] [-dist folder]
//
// With -dist it serves that folder as it is, without building.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"
	"time"

	"pivotbench/scripts/lib/pack"
	"pivotbench/scripts/lib/web"
)

func main() {
	addr := flag.String("addr", "localhost:8787", "`host:port` to listen on; :8787 listens on all networks")
	dist := flag.String("dist", "", "serve this `folder`, already built")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := run(ctx, *addr, *dist); err != nil {
		fmt.Fprintln(os.Stderr, "serve:", err)
		os.Exit(1)
	}
}

func run(ctx context.Context, addr, dist string) error {
	// Listening first reports a port that is in use before the build.
	listener, err := net.Listen("tcp", addr)
	if err != nil {
		return err
	}
	defer listener.Close()
	if dist == "" {
		temp, err := os.MkdirTemp("", "pivotbench-")
		if err != nil {
			return err
		}
		defer os.RemoveAll(temp)
		dist = filepath.Join(temp, "dist")
		fmt.Println("building")
		if _, err := pack.Build(ctx, pack.Options{Root: ".", Out: dist, Data: pack.PageData, OneFile: true}); err != nil {
			return err
		}
	} else if _, err := os.Stat(filepath.Join(dist, "sw.js")); err != nil {
		return fmt.Errorf("%s is not a built site: %w", dist, err)
	}
	server := &http.Server{Handler: web.Handler(dist), ReadHeaderTimeout: 10 * time.Second}
	go func() {
		<-ctx.Done()
		server.Close()
	}()
	announce(os.Stdout, listener.Addr().(*net.TCPAddr))
	if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}
