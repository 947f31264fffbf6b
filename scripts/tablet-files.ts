import { readFileSync } from "node:fs";

const SHELL = "app/(tablet)/tablet-shell/page";
const FONT = /static\/media\/[\w./~-]+\.woff/g;
const CHUNK = /static\/chunks\/[\w./~-]+\.js/g;

export interface TabletFiles {
  /** Scripts the tablet's page names itself. */
  readonly first: readonly string[];
  /** Every file the tablet can come to need, by address. */
  readonly all: readonly string[];
}

/** The files of the tablet in the build at hand: what its page names, and whatever these name in turn. */
export function listTabletFiles(): TabletFiles {
  const { rootMainFiles } = JSON.parse(read("build-manifest.json")) as { rootMainFiles: string[] };
  const manifest = readManifest();
  const first = new Set([...rootMainFiles, ...Object.values(manifest.entryJSFiles).flat()]);
  const styles = new Set(Object.values(manifest.entryCSSFiles).flatMap((files) => files.map(({ path }) => path)));
  const found = new Set(first);
  for (const file of found) for (const [named] of read(file).matchAll(CHUNK)) found.add(named);
  const media = [...styles].flatMap((style) =>
    [...read(style).matchAll(/url\(["']?\.\.\/(media\/[^"')]+)/g)].map(([, path]) => `static/${path}`),
  );
  const fonts = [...found].flatMap((file) => read(file).match(FONT) ?? []);
  return {
    first: [...first],
    all: [...new Set([...found, ...styles, ...media, ...fonts])].map((file) => `/_next/${file}`),
  };
}

interface ClientManifest {
  readonly entryJSFiles: Record<string, readonly string[]>;
  readonly entryCSSFiles: Record<string, readonly { readonly path: string }[]>;
}

function readManifest(): ClientManifest {
  const source = read(`server/${SHELL}_client-reference-manifest.js`);
  const json = /\] ?= ?(\{.*\});?\s*$/s.exec(source)?.[1];
  if (!json) throw new Error("The build's list of the tablet's files has another form than expected.");
  return JSON.parse(json) as ClientManifest;
}

const read = (path: string) => readFileSync(`.next/${path}`, "utf8");
