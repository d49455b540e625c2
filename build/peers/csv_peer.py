"""The peer Python's own csv module: tables read, tables written, and how long a table of
patients takes with the libraries of a script."""

import base64
import csv
import io
import json
import platform
import zlib
from datetime import datetime

from lines import rounds, serve


def about(_):
    return {"version": platform.python_version(), "zones": ""}


def read(question):
    """The rows of a text."""
    return {"rows": list(csv.reader(io.StringIO(question["text"], newline=""), delimiter=question["comma"]))}


def write(question):
    """A text of rows."""
    out = io.StringIO(newline="")
    csv.writer(out, delimiter=question["comma"]).writerows(question["rows"])
    return {"text": out.getvalue()}


def time(question):
    """A table read, a link of each row (JSON, deflated) or, where it has one, the link opened and
    compared, and the table written with it."""
    counts = []

    def work():
        rows = list(csv.reader(io.StringIO(question["text"], newline=""), delimiter="\t"))
        head, made = rows[0], 0
        for number, row in enumerate(rows[1:]):
            facts = dict(zip(head, row))
            link = facts.pop("Link")
            day = datetime.strptime(facts["Surgery date"], "%Y-%m-%d").date().isoformat()
            plan = {"number": number, "surgery": day, "arrival": facts["Arrival"], "joint": facts["Joint"],
                    "operation": facts["Operation"], "stay": facts["Stay"], "soap": facts["Soap"], "settings": question["settings"]}
            if link:
                json.loads(zlib.decompress(zlib.compress(json.dumps(plan).encode())))
            packed = base64.urlsafe_b64encode(zlib.compress(json.dumps(plan).encode(), 9)).decode()
            row.append("https://plans.example.org/#" + packed)
            made += 1
        out = io.StringIO(newline="")
        csv.writer(out, delimiter="\t").writerows(rows)
        counts.append((made, len(out.getvalue())))

    ms = rounds(question["count"], work)
    return {"rows": counts[-1][0], "bytes": counts[-1][1], "ms": ms}


serve({"about": about, "read": read, "write": write, "time": time})
