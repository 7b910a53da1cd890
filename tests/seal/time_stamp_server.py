"""A time-stamp server for the tests: `openssl ts` behind HTTP, honest or not by the path it is asked at.

Started in a folder with tsa.cnf; prints its port on one line, then serves until it is ended.
"""
import http.server
import pathlib
import subprocess

KEPT = pathlib.Path("kept.tsr")


def reply(question, section):
    pathlib.Path("question.tsq").write_bytes(question)
    subprocess.run(
        ["openssl", "ts", "-reply", "-config", "tsa.cnf", "-section", section, "-queryfile", "question.tsq", "-out",
         "reply.tsr"], check=True, stderr=subprocess.DEVNULL)
    return pathlib.Path("reply.tsr").read_bytes()


class Handler(http.server.BaseHTTPRequestHandler):
    def do_POST(self):
        question = self.rfile.read(int(self.headers["Content-Length"]))
        media_type = "application/timestamp-reply"
        status = 200
        if self.path == "/garbage":
            body = b"0\x03\x02\x01\x05"
        elif self.path == "/unheard":
            body = b"0\x05\x30\x03\x02\x01\x09"
        elif self.path == "/page":
            body, media_type = b"<p>closed</p>", "text/html"
        elif self.path == "/broken":
            body, status = b"", 500
        elif self.path == "/replayed":
            body = KEPT.read_bytes()
        elif self.path == "/flipped":
            body = bytearray(reply(question, "honest"))
            body[-20] ^= 1
        elif self.path == "/rejecting":
            body = reply(question, "rejecting")
        else:
            body = reply(question, "honest")
            KEPT.write_bytes(body)
        self.send_response(status)
        self.send_header("Content-Type", media_type)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(bytes(body))

    def log_message(self, *unused):
        pass


server = http.server.HTTPServer(("127.0.0.1", 0), Handler)
print(server.server_port, flush=True)
server.serve_forever()
