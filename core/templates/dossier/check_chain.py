import hashlib, json, re, sys
head, count = bytes(32), 0
for line in re.findall(r'^\{"seq":.*\}$', open(sys.argv[1], encoding="utf-8").read(), re.M):
    e, count = json.loads(line), count + 1
    long = lambda number: number.to_bytes(8, "little", signed=True)
    parts = [head, long(e["seq"]), bytes.fromhex(e["id"]), e["at"], long(e["monotonic_ms"]), e["boot"],
             e["author"], e["kind"], long(e["version"]), e.get("body", "")]
    parts = [part.encode() if isinstance(part, str) else part for part in parts]
    made = hashlib.sha256(b"".join(long(len(part)) + part for part in parts)).hexdigest()
    bare = "body" not in e and e["kind"] in ("code-set", "illegible")
    if e["seq"] != count or not (bare or made == e["digest"]):
        sys.exit(f"entry {count} is missing or was altered")
    head = bytes.fromhex(e["digest"])
print(count, head.hex())
