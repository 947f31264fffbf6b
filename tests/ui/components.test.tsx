import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, test } from "vitest";
import { Button } from "@/components/ui/button";
import { CheckboxField } from "@/components/ui/checkbox-field";
import { RadioCards } from "@/components/ui/choice-cards";
import { Ladder } from "@/components/ui/ladder";
import { Banner, ErrorNotice } from "@/components/ui/notices";
import { Progress } from "@/components/ui/progress";
import { Quantity } from "@/components/ui/quantity";
import { SelectField } from "@/components/ui/select-field";
import { type State, StateMark, StateShape, stateWord } from "@/components/ui/state-mark";
import { Table } from "@/components/ui/table";
import { SyncLine } from "@/components/ui/tablet-frame";
import { NumberInput, TextInput } from "@/components/ui/text-input";

const states = Object.keys(stateWord) as State[];
const attribute = (markup: string, name: string) => markup.match(new RegExp(`${name}="([^"]*)"`))?.[1];

describe("states", () => {
  test("each has a shape and a word of its own", () => {
    const shapes = states.map((state) =>
      renderToStaticMarkup(<StateShape state={state} />).replace(/(data-state|class)="[^"]*"/g, ""),
    );
    expect(new Set(shapes).size).toBe(states.length);
    expect(new Set(Object.values(stateWord)).size).toBe(states.length);
  });

  test("a bare mark keeps its word for screen readers", () => {
    expect(renderToStaticMarkup(<StateMark state="refused" bare />)).toContain('<span class="sr-only">Refused</span>');
  });
});

describe("fields", () => {
  test("hint and error are tied to the control, and an error marks it", () => {
    const markup = renderToStaticMarkup(<TextInput id="phone" label="Phone" hint="With area code" error="Too short" />);
    expect(markup).toContain('<label id="phone-label" for="phone"');
    expect(attribute(markup, "aria-describedby")).toBe("phone-hint phone-error");
    expect(markup).toContain('id="phone-hint"');
    expect(markup).toContain('id="phone-error"');
    expect(attribute(markup, "aria-invalid")).toBe("true");
  });

  test("without hint and error nothing is described and nothing marked", () => {
    const markup = renderToStaticMarkup(<TextInput id="phone" label="Phone" />);
    expect(markup).not.toMatch(/aria-describedby|aria-invalid/);
  });

  test("the unit of a number is read with it", () => {
    const markup = renderToStaticMarkup(<NumberInput id="charge" label="Charge" unit="kg" hint="Nameplate" />);
    expect(attribute(markup, "aria-describedby")).toBe("charge-hint charge-unit");
    expect(attribute(markup, "inputMode")).toBe("decimal");
  });

  test("choices, checkbox and cards carry label, value and error", () => {
    const select = renderToStaticMarkup(
      <SelectField
        id="u"
        label="Urgency"
        emptyChoice="Choose"
        choices={[{ value: "day", label: "Today" }]}
        error="Choose one"
      />,
    );
    expect(select).toContain('<option value="">Choose</option><option value="day">Today</option>');
    expect(attribute(select, "aria-describedby")).toBe("u-error");
    const box = renderToStaticMarkup(<CheckboxField id="cores" label="Cores are out" error="Needed first" />);
    expect(attribute(box, "aria-describedby")).toBe("cores-error");
    const cards = renderToStaticMarkup(
      <RadioCards
        label="Kind"
        name="kind"
        defaultValue="b"
        cards={["a", "b"].map((value) => ({ value, label: value }))}
      />,
    );
    expect(cards).toContain("<legend");
    expect(cards.match(/type="radio"/g)).toHaveLength(2);
    expect(cards).toMatch(/checked=""[^>]*value="b"|value="b"[^>]*checked=""/);
  });
});

describe("buttons", () => {
  test("are no submit buttons unless they say so", () => {
    expect(attribute(renderToStaticMarkup(<Button>Print</Button>), "type")).toBe("button");
    expect(attribute(renderToStaticMarkup(<Button type="submit">Save</Button>), "type")).toBe("submit");
  });

  test("while pending they say so and stay where focus can be", () => {
    const markup = renderToStaticMarkup(
      <Button pending pendingWord="Closing">
        Close the job
      </Button>,
    );
    expect(markup).toContain("Closing");
    expect(attribute(markup, "aria-disabled")).toBe("true");
    expect(markup).not.toMatch(/ disabled=/);
  });
});

describe("figures", () => {
  test("a quantity keeps number and unit together, with a true minus", () => {
    const markup = renderToStaticMarkup(<Quantity value={-1234.56} unit="micron/min" digits={1} />);
    expect(markup).toContain("−1,234.6");
    expect(markup).toContain("micron/min");
    expect(markup).toContain("whitespace-nowrap");
  });

  test("what is not known is said in words", () => {
    expect(renderToStaticMarkup(<Quantity value={null} unit="°C" />)).toContain("not known");
  });

  test("progress states its share, and none when it cannot", () => {
    expect(attribute(renderToStaticMarkup(<Progress label="Import" value={340} max={512} />), "aria-valuenow")).toBe(
      "340",
    );
    expect(renderToStaticMarkup(<Progress label="Check" />)).not.toContain("aria-valuenow");
  });
});

describe("lists", () => {
  const columns = [
    { key: "id", header: "Work order", cell: (row: { id: string; last: number }) => row.id },
    { key: "last", header: "Last", numeric: true, cell: (row: { id: string; last: number }) => row.last },
  ];

  test("a table has a caption, column heads and a head for each row", () => {
    const markup = renderToStaticMarkup(
      <Table caption="Holds" columns={columns} rows={[{ id: "1043", last: 476 }]} rowKey={(row) => row.id} />,
    );
    expect(markup).toContain("Holds</caption>");
    expect(markup.match(/scope="col"/g)).toHaveLength(2);
    expect(markup).toMatch(/<th data-heading="Work order" scope="row"[^>]*>1043<\/th>/);
    expect(markup).toMatch(/<section aria-label="Holds" tabindex="0"/);
  });

  test("an empty table gives way to words", () => {
    const markup = renderToStaticMarkup(
      <Table caption="Holds" columns={columns} rows={[]} rowKey={(row) => row.id} empty={<p>No holds yet</p>} />,
    );
    expect(markup).toBe("<p>No holds yet</p>");
  });

  test("the ladder marks the open step and says every state in words", () => {
    const markup = renderToStaticMarkup(
      <Ladder
        label="Steps"
        currentId="hold"
        rungs={[
          { id: "recover", name: "Recover", state: "proven", href: "/r" },
          { id: "hold", name: "Hold", state: "working", href: "/h" },
          { id: "close", name: "Close", state: "waiting" },
        ]}
      />,
    );
    expect(markup.match(/aria-current="step"/g)).toHaveLength(1);
    for (const word of ["Proven", "Working", "Waiting"]) expect(markup).toContain(word);
  });
});

describe("where the work is", () => {
  test.each([
    ["saved-here", 4, "Saved here, 4 to send"],
    ["sending", 2, "Sending, 2 left"],
    ["sent", 0, "Sent"],
    ["not-sent", 1, "Saved here, 1 could not be sent"],
  ] as const)("%s with %d waiting reads %j", (state, waiting, words) => {
    expect(renderToStaticMarkup(<SyncLine state={state} waiting={waiting} />)).toContain(words);
  });

  test("a banner is announced politely, an error at once", () => {
    expect(renderToStaticMarkup(<Banner kind="sent">Sent</Banner>)).toContain('role="status"');
    expect(renderToStaticMarkup(<ErrorNotice happened="Not saved" />)).toContain('role="alert"');
  });
});
