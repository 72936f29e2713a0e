package main

import (
	"fmt"
	"io"
	"net"
	"strconv"
)

// plainNotes says what a browser withholds at an address that is neither
// localhost nor https with a certificate it trusts (W3C Secure Contexts).
const plainNotes = `
On a tablet the whole sketcher works at that address: drawing, checking, keeping
the work on the tablet, opening and saving files. Over plain http the tablet's
browser does not allow these:
  - working without the network, and adding Scrubline to the home screen as an app;
  - handing a file to another program (Save a file works).
To have them too, give -cert and -key a certificate that the tablet trusts, or
connect the tablet by cable and forward the port, so that it opens localhost.
Anyone in this network can open the page; they do not see your work.
`

// secureNotes says what depends on the certificate.
const secureNotes = `
Where the tablet trusts the certificate everything works, also without the
network once the page was loaded. Clicking a warning away is not enough for that.
Anyone in this network can open the page; they do not see your work.
`

// describe prints where the page is and, when it can be reached from other
// machines, how a tablet reaches it. It returns the address for this computer.
func describe(out io.Writer, at *net.TCPAddr, secure bool) string {
	scheme, notes := "http", plainNotes
	if secure {
		scheme, notes = "https", secureNotes
	}
	address := func(host string) string {
		return scheme + "://" + net.JoinHostPort(host, strconv.Itoa(at.Port)) + "/"
	}
	host := at.IP.String()
	if at.IP.IsUnspecified() {
		host = "127.0.0.1"
	}
	fmt.Fprintf(out, "Scrubline is at %s  (stop it with Ctrl+C)\n", address(host))
	others := []string{host}
	switch {
	case at.IP.IsLoopback():
		fmt.Fprintf(out, "Only this computer reaches it. For a tablet: scrubline serve -listen :%d\n", at.Port)
		return address(host)
	case at.IP.IsUnspecified():
		others = ownAddresses(net.InterfaceAddrs)
	}
	if len(others) == 0 {
		fmt.Fprintln(out, "This computer is in no network that a tablet could reach it by.")
		return address(host)
	}
	for _, other := range others {
		fmt.Fprintf(out, "On a tablet in the same network: %s\n", address(other))
	}
	fmt.Fprint(out, notes)
	return address(host)
}

// ownAddresses lists the IPv4 addresses other machines may reach this one by:
// the ones people can type.
func ownAddresses(list func() ([]net.Addr, error)) []string {
	addrs, err := list()
	if err != nil {
		return nil
	}
	var found []string
	for _, a := range addrs {
		ipnet, ok := a.(*net.IPNet)
		if ok && ipnet.IP.To4() != nil && ipnet.IP.IsGlobalUnicast() {
			found = append(found, ipnet.IP.String())
		}
	}
	return found
}
