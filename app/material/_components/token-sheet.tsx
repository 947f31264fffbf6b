import { Quantity } from "@/components/ui/quantity";
import { Facts, Section } from "@/components/ui/section";

const grounds = ["ground", "raised", "sunk", "hairline", "edge", "ink-soft", "ink", "action"] as const;

export function TokenSheet() {
  return (
    <Section
      title="Ground, ink, letters"
      lead="One ink on warm grey; hairlines instead of boxes; colour is left to states."
    >
      <div className="flex flex-wrap gap-x-6 gap-y-3">
        {grounds.map((name) => (
          <span key={name} className="flex items-center gap-2 text-small">
            <span className="size-8 border border-edge" style={{ background: `var(--${name})` }} />
            {name}
          </span>
        ))}
      </div>
      <div className="grid gap-1">
        <p className="text-title font-semibold">Work order 1043: walk-in cooler loses capacity</p>
        <p className="text-body">Body: read the gauge at the system, not at the pump. 0O 1lI 5S 8B.</p>
        <p className="text-small text-ink-soft">Small: last visit 14 March, proof weak, liquid line flare.</p>
      </div>
      <Facts
        columns={2}
        items={[
          { term: "Level", value: <Quantity value={612} unit="micron" /> },
          { term: "Charge", value: <Quantity value={4.25} unit="kg" digits={2} /> },
          { term: "Change", value: <Quantity value={-3.4} unit="micron/min" digits={1} signed /> },
          { term: "Wall", value: <Quantity value={null} unit="°C" /> },
        ]}
      />
      <p>
        <Quantity value={612} unit="micron" live />
      </p>
    </Section>
  );
}
