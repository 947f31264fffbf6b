import { SubmitButton } from "@/components/ui/submit-button";

/** From which month to which; both stand in the address. */
export function MonthForm({ path, from, to }: { path: string; from: string; to: string }) {
  return (
    <form action={path} className="flex flex-wrap items-end gap-2">
      {[
        { name: "from", label: "From", value: from },
        { name: "to", label: "To", value: to },
      ].map((field) => (
        <label key={field.name} className="grid gap-1">
          <span className="text-small text-ink-soft">{field.label}</span>
          <input type="month" name={field.name} defaultValue={field.value} className="control" />
        </label>
      ))}
      <SubmitButton kind="quiet">Show</SubmitButton>
    </form>
  );
}
