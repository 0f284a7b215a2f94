/* A file as text, piece by piece: the browser reads each piece when it is wanted, so that neither
 * the page nor the memory holds a large file whole.
 *
 * Text in UTF-8 or UTF-16 is told by its first bytes; what is neither is taken for the Western code
 * page 1252, in which older loggers write their degree signs.
 */
(() => {
  "use strict";

  const SIZE = 1 << 20; // bytes of a piece
  const HEAD = 1 << 16; // bytes that are looked at before a file is read

  /** Return {text, encoding} of the beginning of a file; an error says why it is no text. */
  async function headOf(file) {
    const bytes = await bytesOf(file, 0, HEAD);
    const encoding = encodingOf(bytes);
    if (bytes.length === 0) throw new Error(`${file.name} is empty`);
    const text = new TextDecoder(encoding).decode(bytes, { stream: true });
    if (text.includes("\0")) throw new Error(`${file.name} is no text: save the record as CSV or as tab-separated text first`);
    return { text, encoding, whole: file.size <= HEAD };
  }

  function encodingOf(bytes) {
    if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
    if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
    try {
      new TextDecoder("utf-8", { fatal: true }).decode(bytes, { stream: true });
      return "utf-8";
    } catch {
      return "windows-1252";
    }
  }

  /** Yield {text, read, last}: the pieces of a file with the bytes that are read by then. */
  async function* piecesOf(file, encoding) {
    const decoder = new TextDecoder(encoding);
    let coming = bytesOf(file, 0, SIZE);
    for (let read = 0; read < file.size; ) {
      const bytes = await coming;
      read += bytes.length;
      const last = read >= file.size;
      if (!last) coming = bytesOf(file, read, read + SIZE); // while the piece before is looked at
      yield { text: decoder.decode(bytes, { stream: !last }), read, last };
    }
  }

  async function bytesOf(file, from, to) {
    try {
      return new Uint8Array(await file.slice(from, to).arrayBuffer());
    } catch {
      throw new Error(`${file.name} cannot be read any more: it was changed, moved or taken away. Choose it again`);
    }
  }

  (globalThis.recordDesk ??= {}).pieces = { headOf, piecesOf };
})();
