package main

import (
	"net"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAnnounce(t *testing.T) {
	said := func(ip net.IP) string {
		var b strings.Builder
		announce(&b, &net.TCPAddr{IP: ip, Port: 8787})
		return b.String()
	}
	assert.Equal(t, "http://localhost:8787/\n", said(net.IPv4(127, 0, 0, 1)))
	assert.Equal(t, "http://localhost:8787/\n", said(net.IPv6loopback))
	assert.Equal(t, "http://192.0.2.7:8787/\n"+plainHTTP+"\n", said(net.IPv4(192, 0, 2, 7)))

	everywhere := said(net.IPv6unspecified)
	assert.True(t, strings.HasPrefix(everywhere, "http://localhost:8787/\n"))
	assert.True(t, strings.HasSuffix(everywhere, plainHTTP+"\n"))
	for _, ip := range networkAddresses() {
		assert.Contains(t, everywhere, "http://"+ip.String()+":8787/\n")
	}
}
