package main

import (
	"fmt"
	"io"
	"net"
	"strconv"
)

// tabletNotes says what a browser withholds at an address that is neither
// localhost nor https with a certificate it trusts (W3C Secure Contexts).
const tabletNotes = `
On a tablet in the same network the whole sketcher works at the address above:
drawing, checking, keeping the work on the tablet, opening and saving files.
Over plain http the tablet's browser does not allow these:
  - working without the network, and adding Scrubline to the home screen as an app;
  - handing a file to another program (use Save a file instead).
To have them too, serve the page over https with a certificate the tablet trusts,
or connect the tablet by cable and forward the port, so that it opens localhost.
Anyone in this network can open the page; they do not see your work.
`

// describe prints where the page is and, when it can be reached from other
// machines, how a tablet reaches it. It returns the address for this computer.
func describe(out io.Writer, at *net.TCPAddr) string {
	port := strconv.Itoa(at.Port)
	local := "http://" + net.JoinHostPort("127.0.0.1", port) + "/"
	if at.IP.IsLoopback() {
		local = "http://" + net.JoinHostPort(at.IP.String(), port) + "/"
		fmt.Fprintf(out, "Scrubline is at %s  (stop it with Ctrl+C)\n", local)
		fmt.Fprintf(out, "Only this computer reaches it. For a tablet: scrubline serve -listen :%s\n", port)
		return local
	}
	hosts := []string{at.IP.String()}
	if at.IP.IsUnspecified() {
		fmt.Fprintf(out, "Scrubline is at %s  (stop it with Ctrl+C)\n", local)
		hosts = ownAddresses(net.InterfaceAddrs)
	} else {
		local = "http://" + net.JoinHostPort(hosts[0], port) + "/"
	}
	if len(hosts) == 0 {
		fmt.Fprintln(out, "This computer is in no network that a tablet could reach it by.")
		return local
	}
	for _, host := range hosts {
		fmt.Fprintf(out, "On a tablet in the same network: http://%s/\n", net.JoinHostPort(host, port))
	}
	fmt.Fprint(out, tabletNotes)
	return local
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
