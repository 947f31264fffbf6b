import { LoadingLines } from "@/components/ui/progress";

export default function Loading() {
  return <LoadingLines lines={8} />;
}
