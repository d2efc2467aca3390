"""How records and traces of the open standard are asked: inputs in, the same keys as expected out."""

from quoting.lab import records
from quoting.lab.jobs import read_job


def reserved(inputs):
    field, label, unknown = inputs["separators"].split()
    (line,) = records.lines_of(f"A{label}1{field}{unknown}".encode(), "x").rows
    assert [value.text for value in line.values] == ["1", unknown]
    assert [value.known for value in line.values] == [True, False]
    signs = {"start": records.START, "end": records.END, "check": records.CHECK}
    signs |= {"field": records.SEPARATOR, "label": label, "unknown": records.UNKNOWN}
    return {name: ord(sign) for name, sign in signs.items()}


def record(inputs):
    job, _ = read_job(inputs["record"].encode(), "x")
    return {"right": job.number(inputs["label"], "R"), "left": job.number(inputs["label"], "L")}


def trace(inputs):
    count = int(inputs["format"].split(";")[1])
    text = f"TRCFMT={inputs['format']}\nR=" + ";".join([str(inputs["radius"])] * count)
    (one,) = read_job(text.encode(), "x")[0].traces
    assert one.equal
    assert (one.side, one.source) == ("R", "F")
    return {"points": len(one.radii), "radius_mm": one.radii[0]}


ASK = {"dcs-reserved": reserved, "dcs-record": record, "dcs-trace": trace}
