// Command build makes the site for a static host.
//
//	go run ./scripts/build [-o dist] [-public https://host/path/]
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"text/tabwriter"

	"pivotbench/scripts/lib/pack"
)

func main() {
	out := flag.String("o", "dist", "`folder` to write; replaces an older build there")
	public := flag.String("public", "", "public `address` of the site, for links shared from a local copy")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	report, err := pack.Build(ctx, pack.Options{Root: ".", Out: *out, Brotli: true, Public: *public, Data: pack.PageData, OneFile: true})
	if err != nil {
		fmt.Fprintln(os.Stderr, "build:", err)
		os.Exit(1)
	}
	printSizes(os.Stdout, report)
	fmt.Printf("\nversion %s in %s\n", report.Version, *out)
}

// printSizes writes one line for each file, in bytes, and what a first visit fetches in
// each form. A file without that form counts as it is; the one file does not count.
func printSizes(w io.Writer, r *pack.Report) {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "raw\tgzip\tbrotli\t \tfile")
	var raw, gzip, brotli int
	for _, f := range r.Files {
		g, b := orRaw(f.Gzip, f.Raw), orRaw(f.Brotli, f.Raw)
		fmt.Fprintf(t, "%d\t%d\t%d\t \t%s\n", f.Raw, g, b, f.Name)
		if f.Name != pack.OneFile {
			raw, gzip, brotli = raw+f.Raw, gzip+g, brotli+b
		}
	}
	fmt.Fprintf(t, "%d\t%d\t%d\t \tin all\n", raw, gzip, brotli)
	t.Flush()
}

func orRaw(form, raw int) int {
	if form == 0 {
		return raw
	}
	return form
}
