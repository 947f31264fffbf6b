import { Quantity } from "@/components/ui/quantity";
import type { VolumeError, VolumeEstimate } from "@/lib/registry/circuit-volume";
import type { Result } from "@/lib/result";
import { missingForVolumeWord } from "./words";

/** What the charge and the lines say about the internal volume, with its interval; or what is missing to say it. */
export function VolumeEstimateWords({ estimate }: { estimate: Result<VolumeEstimate, VolumeError> }) {
  if (!estimate.ok)
    return (
      <p>
        To estimate the internal volume, give{" "}
        {new Intl.ListFormat("en", { type: "conjunction" }).format(
          estimate.error.missing.map((each) => missingForVolumeWord[each]),
        )}
        .
      </p>
    );
  const { litres, lowLitres, highLitres, extraLineLitres } = estimate.value;
  return (
    <p>
      Estimated internal volume: <Quantity value={litres} unit="L" digits={1} /> (between{" "}
      <Quantity value={lowLitres} unit="L" digits={1} /> and <Quantity value={highLitres} unit="L" digits={1} />)
      {extraLineLitres !== 0 && (
        <>
          , of it <Quantity value={extraLineLitres} unit="L" digits={1} signed /> for line beyond the factory's length
        </>
      )}
      .{" "}
      <span className="text-small text-ink-soft">
        From the charge's liquid volume at 25 °C filling 25 to 60 % of the circuit (common practice, no source).
      </span>
    </p>
  );
}
