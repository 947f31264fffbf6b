import type { InvalidFields } from "@/lib/registry/form";

/** Everything a register's form can be refused for. */
export type RegisterFailure =
  | InvalidFields
  /** Somebody like this is on the books; `of` is what was asked, so that asking the same again is knowing it. */
  | { readonly code: "like-another"; readonly of: string; readonly words: string }
  | {
      readonly code:
        | "label-taken"
        | "no-such-holder"
        | "last-owner"
        | "owner-role-is-an-owners"
        | "already-a-member"
        | "no-such-tool"
        | "no-such-job"
        | "no-accuracy"
        | "gone";
    };

/** Where the words belong ("" is the form as a whole) and what they are. */
export function failureWords(failure: RegisterFailure): Readonly<Record<string, string>> {
  switch (failure.code) {
    case "invalid-fields":
      return failure.fields;
    case "like-another":
      return { name: failure.words };
    case "label-taken":
      return { label: "Another cylinder has this label." };
    case "no-such-holder":
      return { heldBy: "This person does not work here any more. Choose someone else." };
    case "last-owner":
      return { roles: "The company needs an owner. Make someone else owner first." };
    case "owner-role-is-an-owners":
      return { roles: "Only an owner gives or takes the owner's role." };
    case "already-a-member":
      return { email: "Someone with this address works here already." };
    case "no-such-tool":
      return { otherToolId: "Choose another one of the same kind that reads in the same unit." };
    case "no-such-job":
      return { jobId: "There is no such job." };
    case "no-accuracy":
      return {
        otherToolId: "Neither says how exact it is; give the accuracy or the smallest step of one of them first.",
      };
    case "gone":
      return { "": "It is not there any more. Go back and look again." };
  }
}
