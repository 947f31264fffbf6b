import { writeHistory } from "@/prisma/demo/history/write-history";
import { withMigrator } from "./with-migrator";

// npm run demo:history: two invented years for a demo company that was made without them.
await withMigrator(async (migrator) => {
  const { rows } = await migrator.query<{ id: string; zone: string; has: boolean }>(
    `select c.tenant_id as id, c.time_zone as zone,
       exists (select from member m where m.tenant_id = c.tenant_id and m.email = 'wren@fernhollow.example') as has
     from company c join gate.company g on g.id = c.tenant_id where c.is_demo and g.slug = 'fernhollow'`,
  );
  const company = rows[0];
  if (!company) throw new Error("There is no demo company here; npm start makes it in an empty database.");
  if (company.has) throw new Error("The demo company has its history already.");
  const people = await migrator.query<{ email: string; person_id: string }>(
    "select email, person_id from member where tenant_id = $1",
    [company.id],
  );
  await migrator.query("begin");
  const written = await writeHistory(
    migrator,
    {
      company: company.id,
      timeZone: company.zone,
      people: new Map(people.rows.map(({ email, person_id }) => [email, person_id])),
    },
    new Date(),
  );
  await migrator.query("commit");
  console.log(`Written: ${written.jobs} invented jobs, ${written.callbacks} of them confirmed as coming back.`);
});
