package main

import (
	"fmt"
	"io"
	"net"
)

// announce prints the addresses of the site: for this device and, if the server listens
// on every network, for other devices.
func announce(w io.Writer, at *net.TCPAddr) {
	if !at.IP.IsUnspecified() {
		host := at.IP.String()
		if at.IP.IsLoopback() {
			host = "localhost"
		}
		fmt.Fprintf(w, "http://%s/\n", net.JoinHostPort(host, fmt.Sprint(at.Port)))
		if !at.IP.IsLoopback() {
			fmt.Fprintln(w, plainHTTP)
		}
		return
	}
	fmt.Fprintf(w, "http://localhost:%d/\n", at.Port)
	for _, ip := range networkAddresses() {
		fmt.Fprintf(w, "http://%s:%d/\n", ip, at.Port)
	}
	fmt.Fprintln(w, plainHTTP)
}

// plainHTTP says what browsers withhold from a page that is neither encrypted nor on the
// same device.
const plainHTTP = "Over plain http, other devices have no offline copy, clipboard or sensors."

// networkAddresses returns this device's IPv4 addresses on its networks. Those are short
// enough to type on a phone.
func networkAddresses() []net.IP {
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	var found []net.IP
	for _, a := range addresses {
		n, ok := a.(*net.IPNet)
		if ok && n.IP.To4() != nil && !n.IP.IsLoopback() && !n.IP.IsLinkLocalUnicast() {
			found = append(found, n.IP)
		}
	}
	return found
}
