"use client";

import type { ReactNode } from "react";
import { Button } from "@/components/ui/button";
import { KeyHint } from "@/components/ui/key-hint";
import { Menu } from "@/components/ui/menu";
import { OfficeFrame } from "@/components/ui/office-frame";
import { PageHeader } from "@/components/ui/page-header";
import { SearchBox } from "@/components/ui/search-box";
import { useUndo } from "@/components/ui/undo";

/** The office frame around the sheet itself, with an invented company and person. */
export function FrameSheet({ children }: { children: ReactNode }) {
  const said = useUndo();
  return (
    <OfficeFrame
      company={{ name: "Northfold Refrigeration (demo)" }}
      places={[
        { href: "/material", label: "Material", shortcut: "M" },
        { href: "/material/tablet", label: "A tablet step", shortcut: "T" },
        { href: "/material?exceptions", label: "Exceptions", count: 3, shortcut: "E" },
      ]}
      person={
        <Menu
          label="Ines Halvard"
          trigger={<Button kind="plain">Ines Halvard</Button>}
          items={[
            {
              id: "units",
              label: "My units",
              detail: "micron, psig, °F",
              onSelect: () => said("Units stay as they are"),
            },
            { id: "material", label: "Material", href: "/material" },
            { id: "everywhere", label: "Sign out everywhere", danger: true, onSelect: () => said("Not on this sheet") },
          ]}
        />
      }
      signOut={<Button kind="quiet">Sign out</Button>}
      command={
        <div className="flex items-center gap-4">
          <SearchBox label="Find a customer, site or unit" shortcut="/" className="w-full max-w-md" />
          <KeyHint keys={["Ctrl", "K"]} />
        </div>
      }
    >
      <PageHeader
        title="Material"
        lead="What the screens are made of, in every state. Names and numbers here are invented."
        back={{ href: "/", label: "Start" }}
        actions={
          <>
            <Button onClick={() => said("Visit 1043 moved to Tuesday", () => said("Moved back"))}>Move a visit</Button>
            <Button kind="action">Send to the tablet</Button>
          </>
        }
      />
      {children}
    </OfficeFrame>
  );
}
