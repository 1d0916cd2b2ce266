/* The files in a packed folder (.zip, .tar, .tar.gz), by their names. */

const text = (bytes) => new TextDecoder().decode(bytes);
const through = (blob, method) => new Response(blob.stream().pipeThrough(new DecompressionStream(method))).blob();

/* The central directory at the end says what there is (APPNOTE 4.3.12, 4.3.16); sizes of 4 GiB and more are not read. */
async function ofZip(blob) {
  const tail = Math.max(0, blob.size - 65557), last = new DataView(await blob.slice(tail).arrayBuffer());
  let end = last.byteLength - 22;
  while (end >= 0 && last.getUint32(end, true) !== 0x06054b50) --end;
  if (end < 0) throw new Error("it has no list of its files");
  const files = new Map(), list = new DataView(await blob.slice(last.getUint32(end + 16, true), tail + end).arrayBuffer());
  for (let at = 0; at + 46 <= list.byteLength && list.getUint32(at, true) === 0x02014b50;) {
    const [method, size, name] = [list.getUint16(at + 10, true), list.getUint32(at + 20, true), list.getUint16(at + 28, true)];
    const path = text(new Uint8Array(list.buffer, at + 46, name)), local = list.getUint32(at + 42, true);
    const head = new DataView(await blob.slice(local, local + 30).arrayBuffer());
    const from = local + 30 + head.getUint16(26, true) + head.getUint16(28, true), packed = blob.slice(from, from + size);
    if (method !== 0 && method !== 8) throw new Error(`${path} is packed in a way that is not read here`);
    if (!path.endsWith("/")) files.set(path, method === 8 ? await through(packed, "deflate-raw") : packed);
    at += 46 + name + list.getUint16(at + 30, true) + list.getUint16(at + 32, true);
  }
  return files;
}

/* Blocks of 512 bytes (POSIX.1-2001, pax interchange format): a head, then the file. */
async function ofTar(blob) {
  const files = new Map(), until0 = (bytes) => text(bytes).split("\0")[0];
  let longName = "";
  for (let at = 0; at + 512 <= blob.size;) {
    const head = new Uint8Array(await blob.slice(at, at + 512).arrayBuffer()), size = parseInt(until0(head.subarray(124, 136)), 8) || 0;
    const name = [until0(head.subarray(345, 500)), until0(head.subarray(0, 100))].filter(Boolean).join("/"), kind = until0(head.subarray(156, 157));
    const content = blob.slice(at + 512, at + 512 + size);
    if (kind === "x") longName = /^\d+ path=(.*)$/m.exec(await content.text())?.[1] ?? "";
    else {
      if (name && (kind === "0" || kind === "")) files.set(longName || name, content);
      longName = "";
    }
    at += 512 + Math.ceil(size / 512) * 512;
  }
  return files;
}

export async function unpacked(file) {
  const [a, b] = new Uint8Array(await file.slice(0, 2).arrayBuffer());
  if (a === 0x50 && b === 0x4b) return ofZip(file);
  return ofTar(a === 0x1f && b === 0x8b ? await through(file, "gzip") : file);
}
