"""Whether a program on this machine can reach another one on it: the page and the kernel are two."""

from __future__ import annotations

import socket
from contextlib import ExitStack

from rollmodel.doctor.finding import Finding, good, wrong

SUBJECT = "Connections inside this machine"
PORTS = range(8888, 8939)  # those that JupyterLab tries before it gives up
NAME = "localhost"
SECONDS = 5.0


def look() -> list[Finding]:
    """One finding: whether a page could be served to the browser on this machine."""
    try:
        exchange()
    except OSError as error:
        return [
            wrong(
                SUBJECT,
                f"this machine does not answer itself at 127.0.0.1 ({error.strerror or error}).",
                "Let programs connect to 127.0.0.1: look at the firewall or the security program; on Linux "
                "the loopback interface may be down (ip link set lo up).",
            )
        ]
    free = free_ports(PORTS)
    if not free:
        return [
            wrong(
                SUBJECT,
                f"every port from {PORTS[0]} to {PORTS[-1]} is taken by another program.",
                "Stop the JupyterLab windows that you no longer use, or give a port of your own: "
                "rollmodel open --port 9500",
            )
        ]
    if not name_is_ours():
        return [
            wrong(
                SUBJECT,
                f'the name "{NAME}" does not lead to this machine.',
                "Put the line   127.0.0.1 localhost   into the hosts file (/etc/hosts; on Windows "
                r"C:\Windows\System32\drivers\etc\hosts).",
            )
        ]
    return [good(SUBJECT, f"they work; {len(free)} of the {len(PORTS)} ports from {PORTS[0]} are free.")]


def exchange() -> None:
    """Serve one byte on the loopback and fetch it. Raises OSError where that cannot be."""
    with ExitStack() as open_ones:
        server = open_ones.enter_context(socket.socket())
        server.settimeout(SECONDS)
        server.bind(("127.0.0.1", 0))
        server.listen(1)
        client = open_ones.enter_context(socket.create_connection(server.getsockname(), SECONDS))
        reached = open_ones.enter_context(server.accept()[0])
        reached.sendall(b"x")
        client.settimeout(SECONDS)
        if client.recv(1) != b"x":
            raise OSError("something between the two ends changed what was sent")


def free_ports(ports) -> list[int]:
    """Those of the ports that a program could listen on just now."""
    return [port for port in ports if _is_free(port)]


def _is_free(port: int) -> bool:
    with socket.socket() as probe:
        try:
            probe.bind(("127.0.0.1", port))
        except OSError:
            return False
        return True


def name_is_ours() -> bool:
    """Whether JupyterLab, which listens on a name, would listen on this machine."""
    try:
        found = socket.getaddrinfo(NAME, 8888, type=socket.SOCK_STREAM)
    except OSError:
        return False
    return any(address[4][0] in ("127.0.0.1", "::1") for address in found)
