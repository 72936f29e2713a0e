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
Over plain http in a shop's network, without a certificate:
  works          drawing, checking, opening and saving files, photos from the
                 tablet's own camera program; the work is kept on the tablet
  does not work  using it without the network; adding it to the home screen as
                 an app; sharing a file to another program; keeping the screen
                 awake; asking the tablet never to clear what is kept, so save
                 a file at the end of the day
To have these too, give -cert and -key a certificate that the tablet trusts; or put
the page on a host with https (scrubline export); or connect the tablet by cable
and forward the port, so that it opens localhost.
Anyone in this network can open the page; they do not see your work.
`

// secureNotes says what depends on the certificate.
const secureNotes = `
Where the tablet trusts the certificate everything works, also without the
network once the page was loaded. Clicking a warning away is not enough for that.
Anyone in this network can open the page; they do not see your work.
`

// describe prints where the page is and, when it can be reached from other
// machines, how a tablet reaches it, with a code to scan where a person reads
// along. It returns the address for this computer and those for others.
func describe(out io.Writer, at *net.TCPAddr, secure bool) (local string, others []string) {
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
	local = address(host)
	fmt.Fprintf(out, "Scrubline is at %s  (stop it with Ctrl+C)\n", local)
	switch {
	case at.IP.IsLoopback():
		fmt.Fprintf(out, "Only this computer reaches it. For a tablet: scrubline serve -listen :%d\n", at.Port)
		return local, nil
	case at.IP.IsUnspecified():
		for _, own := range ownAddresses(net.InterfaceAddrs) {
			others = append(others, address(own))
		}
	default:
		others = []string{local}
	}
	if len(others) == 0 {
		fmt.Fprintln(out, "This computer is in no network that a tablet could reach it by.")
		return local, nil
	}
	for i, other := range others {
		fmt.Fprintf(out, "On a tablet in the same network: %s\n", other)
		if i == 0 && isTerminal(out) {
			if code, err := codeText(other); err == nil {
				fmt.Fprintf(out, "\n%s\n", code)
			}
		}
	}
	fmt.Fprint(out, notes)
	return local, others
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
