// Unpacks the files of a folder that end in .br into another folder.
import { createReadStream, createWriteStream } from "node:fs";
import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { pipeline } from "node:stream/promises";
import { createBrotliDecompress } from "node:zlib";

const [from, to] = process.argv.slice(2);
for (const name of await readdir(from)) {
  if (name.endsWith(".br")) {
    const target = createWriteStream(join(to, name.slice(0, -".br".length)));
    await pipeline(createReadStream(join(from, name)), createBrotliDecompress(), target);
  }
}
