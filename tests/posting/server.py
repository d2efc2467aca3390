"""A mail server on this machine that asks for encryption and a login, and that can be told to misbehave."""

import asyncio
import datetime
import ipaddress
import socket
import ssl
import time
import warnings
from contextlib import contextmanager

from aiosmtpd.controller import Controller
from aiosmtpd.smtp import SMTP, AuthResult
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric.ec import SECP256R1, generate_private_key
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat

USER, PASSWORD = "bench", "a good password"
PATIENCE = 60.0  # seconds until an answer counts as none, on a machine that does much else


def certificate(folder, name="127.0.0.1"):
    """A certificate for this machine that signs itself, and its key: paths of two files."""
    key = generate_private_key(SECP256R1())
    who = x509.Name([x509.NameAttribute(x509.NameOID.COMMON_NAME, name)])
    now = datetime.datetime.now(datetime.UTC)
    made = (
        x509.CertificateBuilder()
        .subject_name(who)
        .issuer_name(who)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - datetime.timedelta(days=1))
        .not_valid_after(now + datetime.timedelta(days=1))
        .add_extension(x509.SubjectAlternativeName([x509.IPAddress(ipaddress.ip_address(name))]), critical=False)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .sign(key, hashes.SHA256())
    )
    certificate_file, key_file = folder / "server.pem", folder / "server.key"
    certificate_file.write_bytes(made.public_bytes(Encoding.PEM))
    key_file.write_bytes(key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption()))
    return certificate_file, key_file


class Box:
    """What the server got, and how it behaves: answers to come, one a letter, before the usual ones."""

    def __init__(self):
        self.letters = []
        self.seen = []
        self.mail = []
        self.rcpt = []
        self.data = []
        self.answer = {}  # what it says instead: to "DATA", to "END", the letter's last line
        self.drop = ""  # it hangs up; "data": before the letter; "within": inside it; "end": with all of it
        self.slow = ""  # "rcpt", "end": it never answers
        self.reached = False  # whether a client came to where it does not

    async def silent(self):
        """No answer for as long as the server runs."""
        self.reached = True
        await asyncio.Event().wait()

    async def handle_MAIL(self, server, session, envelope, address, options):  # noqa: N802
        self.seen.append(("MAIL", bool(session.ssl), session.authenticated))
        if self.mail:
            return self.mail.pop(0)
        envelope.mail_from = address
        return "250 fine"

    async def handle_RCPT(self, server, session, envelope, address, options):  # noqa: N802
        if self.slow == "rcpt":
            await self.silent()
        if self.rcpt:
            return self.rcpt.pop(0)
        envelope.rcpt_tos.append(address)
        return "250 fine"

    async def handle_DATA(self, server, session, envelope):  # noqa: N802
        if self.data:
            return self.data.pop(0)
        self.letters.append((envelope.mail_from, envelope.rcpt_tos, envelope.content))
        if self.slow == "end":
            await self.silent()
        if self.drop == "end":
            server.transport.abort()
        if "END" in self.answer:
            return self.answer["END"]
        return "250 taken"


class Server(SMTP):
    """The server, which can also hang up in the middle of a letter."""

    async def smtp_DATA(self, arg):  # noqa: N802
        box = self.event_handler
        if box.drop == "data":
            self.transport.abort()
            return
        if "DATA" in box.answer:
            await self.push(box.answer["DATA"])
            return
        if box.drop == "within":
            await self.push("354 go on")
            await self._reader.readline()
            self.transport.abort()
            return
        await super().smtp_DATA(arg)


def login(server, session, envelope, mechanism, data):
    good = (data.login, data.password) == (USER.encode(), PASSWORD.encode())
    return AuthResult(success=good, handled=good)


@contextmanager
def port_of_nobody():
    """A port that nobody listens at, and that nobody else gets meanwhile."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        yield one.getsockname()[1]


@contextmanager
def running(folder, tls_from_the_start=False, encrypts=True, port=0):
    """The server while it runs: its box, port and certificate."""
    certificate_file, key_file = certificate(folder)
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(certificate_file, key_file)
    box = Box()
    more = {"ssl_context": context} if tls_from_the_start else {}
    words = {"auth_required": True, "authenticator": login, "hostname": "mail.test"}
    words["auth_require_tls"] = encrypts and not tls_from_the_start
    if encrypts and not tls_from_the_start:
        words |= {"tls_context": context, "require_starttls": True}

    class Here(Controller):
        def factory(self):
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")  # that a server may ask for a login without STARTTLS
                return Server(self.handler, **words)

        def _trigger_server(self):
            """The start is not tried out with a whole connection: it would stand in the way of a test that waits."""
            self.port = self.server.sockets[0].getsockname()[1]
            with socket.create_connection((self.hostname, self.port), PATIENCE):
                time.sleep(0.01)

    controller = Here(box, hostname="127.0.0.1", port=port, ready_timeout=PATIENCE, **more)
    controller.start()
    try:
        box.port, box.certificate = controller.port, certificate_file
        yield box
    finally:
        controller.stop(no_assert=True)
