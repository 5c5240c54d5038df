// Say how large the built pages are, pressed, and what the first view takes; fail beyond the limits.
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";

const OUT = "../src/seamwright/app/pages";
const LIMIT = 500_000;
const filesIn = (folder) =>
  readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesIn(path) : [path];
  });
const size = (path) => statSync(path).size;
const pressed = filesIn(OUT).filter((path) => path.endsWith(".gz"));
const total = pressed.reduce((sum, path) => sum + size(path), 0);
const first = readFileSync(join(OUT, "index.html"), "utf8");
const named = [...first.matchAll(/\/(assets\/[^"]+)/g)].map((match) => `${join(OUT, match[1])}.gz`);
const start = [join(OUT, "index.html.gz"), ...named].reduce((sum, path) => sum + size(path), 0);
console.log(`all pages, gzip: ${total} bytes of ${LIMIT}; first view: ${start} bytes`);
for (const path of pressed)
  if (size(path) > 20_000) console.log(`  ${size(path)}  ${path.slice(OUT.length + 1)}`);
if (total > LIMIT) process.exit(1);
