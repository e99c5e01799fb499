# SPDX-License-Identifier: MIT
"""Starts `farvessel try` and attacks it; prints a count in cmocka's manner. Arguments: the program, a scratch folder with
plant.xml in it."""
import re
import json
import os
import signal
import socket
import subprocess
import sys
import threading
import time

PROGRAM, FOLDER = sys.argv[1:3]
PLANT = os.path.join(FOLDER, "plant.xml")
passed, failed = 0, []


def check(good, what):
    global passed
    if good:
        passed += 1
    else:
        failed.append(what)
        print("failed:", what)


class Session:
    def __init__(self, plant, *more):
        self.process = subprocess.Popen([PROGRAM, "try", plant, *more], stdout=subprocess.PIPE,
                                        stderr=subprocess.PIPE, text=True)
        self.url = self.process.stdout.readline().strip()
        self.host, _, rest = self.url[len("http://"):].partition("/")
        self.port, self.secret = int(self.host.split(":")[1]), rest.rstrip("/")

    def end(self, how=signal.SIGINT):
        self.process.send_signal(how)
        said = self.process.communicate(timeout=10)[1]
        return self.process.returncode, said


def raw(port, data, wait=15.0, address="127.0.0.1"):
    """Status and all that comes back; 0: cut off."""
    with socket.create_connection((address, port), timeout=wait) as s:
        try:
            s.sendall(data)
            got = b""
            while piece := s.recv(65536):
                got += piece
        except ConnectionError:
            pass
    return (int(got.split()[1]) if got.startswith(b"HTTP/") else 0), got


FORM = "do=set&part=s1&attribute=bore&value=25+mm"


def request(s, method="GET", path=None, body=None, without=(), **headers):
    given = {"Host": s.host}
    if method == "POST":
        given |= {"Origin": "http://" + s.host, "Content-Type": "application/x-www-form-urlencoded",
                  "Accept": "application/json", "Content-Length": str(len(body or ""))}
    given |= {name.replace("_", "-"): value for name, value in headers.items()}
    lines = [f"{method} {path if path is not None else '/' + s.secret + '/'} HTTP/1.1"]
    lines += [f"{name}: {value}" for name, value in given.items() if name not in without]
    return raw(s.port, ("\r\n".join(lines) + "\r\n\r\n" + (body or "")).encode("latin-1"))


def post(s, body, **more):
    return request(s, "POST", "/" + s.secret + "/do", body, **more)


def answer(got):
    return json.loads(got.split(b"\r\n\r\n", 1)[1])


def addresses(s):
    """It listens on 127.0.0.1 and on no other address."""
    table = [line.split() for name in ("tcp", "tcp6") if os.path.exists("/proc/net/" + name)
             for line in open("/proc/net/" + name).readlines()[1:]]
    ours = [row[1] for row in table if row[3] == "0A" and int(row[1].split(":")[1], 16) == s.port]
    check(ours == [f"0100007F:{s.port:04X}"], f"listens on loopback alone, not on {ours}")


def strangers(s):
    status, got = request(s)
    check(status == 200 and b"Write over" in got, "the page is served to whom the address was told")
    check(request(s, Host=f"localhost:{s.port}")[0] == 200, "localhost is this machine, too")
    for host in ("evil.example", f"evil.example:{s.port}", "127.0.0.1", f"127.0.0.1:{s.port + 1}", ""):
        check(request(s, Host=host)[0] in (400, 403), f"Host {host!r}: names that lead here from elsewhere are refused")
    check(request(s, without=("Host",))[0] in (400, 403), "no Host is refused")
    wrong = ("0" if s.secret[0] != "0" else "1") + s.secret[1:]
    for path in ("/", "/" + wrong + "/", "/" + s.secret[:-1] + "/", "/" + s.secret, "/" + s.secret + "0/", "//", "*"):
        check(request(s, path=path)[0] in (400, 403), f"a wrong secret is refused: {path}")
    check(request(s, Sec_Fetch_Site="none")[0] == 200 and request(s, Sec_Fetch_Site="same-origin")[0] == 200,
          "what the user opened and what our page asks for is served")
    for site in ("cross-site", "same-site"):
        check(request(s, Sec_Fetch_Site=site)[0] == 403, f"Sec-Fetch-Site {site} is refused")
    check(request(s, path=f"/{s.secret}/plant.xml", Sec_Fetch_Site="cross-site")[0] == 403, "and so is the plant")


def forgers(s):
    good = post(s, FORM)
    check(good[0] == 200 and answer(good[1])["refused"] == "", "our own page may change a value")
    check(post(s, "do=undo")[0] == 200, "and undo it")
    for origin in ("http://evil.example", "null", f"https://{s.host}", f"http://127.0.0.1:{s.port + 1}",
                   f"http://localhost:{s.port}", f"http://{s.host}.evil.example", ""):
        check(post(s, FORM, Origin=origin)[0] == 403, f"Origin {origin!r} may not change anything")
    check(post(s, FORM, without=("Origin",))[0] == 403, "nor may who does not say where he comes from")
    check(post(s, FORM, Sec_Fetch_Site="cross-site")[0] == 403, "nor another site")
    for kind in ("text/plain", "multipart/form-data; boundary=x", "application/json"):
        check(post(s, FORM, Content_Type=kind)[0] == 415, f"a body of {kind} is refused")
    check(request(s, "GET", f"/{s.secret}/do?{FORM}")[0] == 404, "a GET changes nothing")
    for method in ("PUT", "DELETE", "OPTIONS", "TRACE", "PATCH"):
        check(request(s, method)[0] in (405, 501), f"{method} is refused")
    headers = request(s)[1].split(b"\r\n\r\n")[0].decode().lower()
    check("access-control" not in headers, "no other origin is let in")
    policy = [line for line in headers.split("\r\n") if line.startswith("content-security-policy:")][0]
    script = policy.split("script-src")[1].split(";")[0]
    check("default-src 'none'" in policy and script.strip() == "'self'" and "frame-ancestors 'none'" in policy,
          "no script within the page, no frame around it")
    for header in ("x-content-type-options: nosniff", "cache-control: no-store", "referrer-policy: same-origin"):
        check(header in headers, header)


def paths(s):
    inside = f"/{s.secret}/"
    check(request(s, path=inside + "plant.xml")[1].endswith(b"</network>\n"), "the plant file has its own path")
    with open(os.path.join(FOLDER, "secret.txt"), "w") as other:
        other.write("mine")
    for path in ("secret.txt", "../secret.txt", "..%2fsecret.txt", "%2e%2e/secret.txt", "/etc/passwd", "..", ".",
                 "plant.xml/../secret.txt", FOLDER + "/secret.txt", "do/../plant.xml"):
        status, got = request(s, path=inside + path)
        check(status in (400, 404) and b"mine" not in got and b"root:" not in got, f"no file is opened by path: {path}")
    before = open(PLANT, "rb").read()
    for value in ("../x.xml", "/etc/passwd"):
        answer_ = answer(post(s, f"do=save&path={value}&file={value}&value={value}")[1])
        check(answer_["refused"] == "", "Save writes one file, whatever else the form says")
    check(open(PLANT, "rb").read() == before and sorted(os.listdir(FOLDER)) == ["plant.xml", "secret.txt"],
          "and no other")


def giants(s):
    most = 16384
    check(post(s, FORM + "&x=" + "a" * (most - len(FORM) - 3))[0] == 200, "a body of 16 kB is read")
    check(post(s, "do=undo")[0] == 200, "and undone")
    check(post(s, FORM + "&x=" + "a" * most)[0] == 413, "a longer one is refused")
    check(request(s, "POST", f"/{s.secret}/do", "", Content_Length=str(10**15))[0] == 413, "before it is sent")
    head = (f"POST /{s.secret}/do HTTP/1.1\r\nHost: {s.host}\r\nOrigin: http://{s.host}\r\n"
            "Content-Type: application/x-www-form-urlencoded\r\nTransfer-Encoding: chunked\r\n\r\n").encode()
    chunk = b"1000\r\n" + b"a" * 4096 + b"\r\n"
    check(raw(s.port, head + chunk * 3 + b"0\r\n\r\n")[0] == 303, "one in pieces is read")
    check(raw(s.port, head + chunk * 64 + b"0\r\n\r\n")[0] in (0, 413), "an endless one is cut off")
    check(request(s, path=f"/{s.secret}/" + "a" * 100000)[0] in (0, 414, 431), "a long address is refused")
    check(request(s, X="a" * 100000)[0] in (0, 413, 431), "and a long head")
    check(answer(post(s, "do=undo")[1])["version"] > 0, "and it is still there")


def slow(s):
    """Byte by byte, one a second: each byte would renew a time limit that counts from the last."""
    begin, cut = time.monotonic(), None
    with socket.create_connection(("127.0.0.1", s.port), timeout=1.0) as c:
        c.sendall(f"GET /{s.secret}/ HTTP/1.1\r\nHost: {s.host}\r\nX: ".encode())
        while time.monotonic() - begin < 25:
            try:
                c.sendall(b"a")
                if c.recv(1) == b"":
                    cut = time.monotonic() - begin
                    break
            except socket.timeout:
                continue
            except OSError:
                cut = time.monotonic() - begin
                break
    check(cut is not None and cut < 15, f"a slow sender is cut off: {cut}")
    check(request(s)[0] == 200, "the page is served all the while")


def crowd(s):
    many = [socket.create_connection(("127.0.0.1", s.port)) for _ in range(60)]
    time.sleep(0.5)
    held = 0
    for c in many:
        c.setblocking(False)
        try:
            held += c.recv(1) != b""
        except BlockingIOError:
            held += 1
        except OSError:
            pass
    check(held <= 32, f"of sixty connections that say nothing 32 at most are held, not {held}")
    for c in many:
        c.close()
    time.sleep(0.3)
    check(request(s)[0] == 200, "and then there is room again")


def markup(s):
    for value in ("<script>alert(1)</script>", "\"><img src=x onerror=alert(1)>", "</section><section id='answer'>"):
        encoded = "".join(f"%{b:02X}" for b in value.encode())
        got = answer(post(s, f"do=set&part=s1&attribute=bore&value={encoded}")[1])
        text = "".join(f["html"] for f in got["fragments"])
        check(got["refused"] != "" and value not in text and "<script" not in text and "<img" not in text,
              f"what is typed comes back as text: {value}")
    check("Write over" in request(s)[1].decode() and "<script>alert" not in request(s)[1].decode(), "on the page, too")


def behind_the_back(s):
    begun = open(PLANT, "rb").read()
    version = answer(post(s, FORM)[1])["version"]
    check(answer(post(s, f"do=undo&seen={version - 1}")[1])["refused"] != "", "who looks at an old state is told")
    with open(PLANT, "ab") as other:
        other.write(b"<!-- by another hand -->\n")
    check("changed by somebody else" in answer(post(s, "do=save")[1])["refused"], "a file that changed is not written over")
    check(open(PLANT, "rb").read() == begun + b"<!-- by another hand -->\n", "nothing of it is lost")
    with open(PLANT, "wb") as other:
        other.write(begun)
    check(answer(post(s, "do=save")[1])["refused"] == "", "as it was, it is saved")
    after = re.sub(rb'(<hose id="s[2-6]" like="s1"[^/]*)/>', rb'\1 bore="19 mm"/>',
                   begun.replace(b'length="2 m" bore="19 mm"', b'length="2 m" bore="25 mm"'))
    check(open(PLANT, "rb").read() == after, "with one value changed, what others had from it kept, and no other byte")
    post(s, "do=undo")
    check(answer(post(s, "do=save")[1])["unsaved"] is False and open(PLANT, "rb").read() == begun,
          "taken back and saved, the file is what it was")
    os.chmod(FOLDER, 0o500)
    if not os.access(FOLDER, os.W_OK):
        post(s, FORM)
        check(answer(post(s, "do=save")[1])["refused"] != "" and open(PLANT, "rb").read() == begun, "no half a file")
    os.chmod(FOLDER, 0o700)


def main():
    s = Session(PLANT)
    for test in (addresses, strangers, forgers, paths, giants, markup, behind_the_back, crowd, slow):
        try:
            test(s)
        except (OSError, ValueError, IndexError, KeyError) as error:
            check(False, f"{test.__name__}: {error!r}")
    post(s, FORM)
    code, said = s.end()
    check(code == 0 and PLANT + ".unsaved" in said and b'bore="25 mm"' in open(PLANT + ".unsaved", "rb").read(),
          "Ctrl-C ends it well and keeps what was not saved")
    one, two = Session(PLANT), Session(PLANT)
    check(one.secret != two.secret and len(one.secret) == 32, "each session has a secret of its own")
    check(raw(two.port, f"GET /{one.secret}/ HTTP/1.1\r\nHost: {two.host}\r\n\r\n".encode())[0] == 403,
          "which opens no other")
    check(one.end(signal.SIGTERM)[0] == 0 and two.end()[0] == 0, "both end")
    print(f"[  PASSED  ] {passed} test(s).")
    if failed:
        print(f"[  FAILED  ] {len(failed)} test(s)")
    sys.exit(bool(failed))


threading.excepthook = lambda args: sys.exit(1)
main()
