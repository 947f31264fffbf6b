import { existsSync } from "node:fs";
import { writeArchive } from "./archive/write-archive";
import { exitOnFailure, StepFailure, step } from "./step";
import { withMigrator } from "./with-migrator";

await exitOnFailure(async () => {
  const file = process.argv[2];
  if (!file) throw new StepFailure("Say where to: npm run backup -- FILE");
  if (existsSync(file)) throw new StepFailure(`${file} exists already; it is left as it is.`);
  const { tables, rows } = await step(`Backing up to ${file}`, () =>
    withMigrator((migrator) => writeArchive(migrator, file, new Date())),
  );
  console.log(
    `${rows} rows of ${tables} tables. The secrets and kept files are not in it; keep the file as safe as the data.`,
  );
});
