import type { DayMap, MapPoint } from "@/lib/work/board/day-map";

/** Ways in different strokes, since colour is kept for states; every stop carries its letter and number. */
const STROKES = ["", "14 6", "3 6", "18 5 3 5", "8 4 2 4 2 4"];

const letterOf = (n: number) => String.fromCharCode(65 + (n % 26)) + (n >= 26 ? String(Math.floor(n / 26) + 1) : "");
const pointsOf = (way: readonly MapPoint[]) => way.map(({ x, y }) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" ");

/** Above this the names would cover each other; the list beside has them. */
const MOST_NAMES = 14;

function Name({ point, width, words }: { point: MapPoint; width: number; words: string }) {
  const left = point.x > width * 0.7;
  return (
    <text
      x={point.x + (left ? -20 : 20)}
      y={point.y + 5}
      textAnchor={left ? "end" : "start"}
      fontSize="15"
      fill="var(--ink)"
      stroke="var(--raised)"
      strokeWidth="4"
      paintOrder="stroke"
    >
      {words.length > 28 ? `${words.slice(0, 27)}…` : words}
    </text>
  );
}

export function MapDrawing({ map }: { map: DayMap }) {
  const { width, height, bar } = map;
  const named = map.open.length + map.routes.flatMap(({ stops }) => stops).length <= MOST_NAMES;
  return (
    <figure className="grid gap-2">
      <svg
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label="The day's ways; the list beside has them in words"
        className="max-h-[calc(100dvh-14rem)] w-full border border-hairline bg-raised print:max-h-none"
      >
        {map.routes.map(({ personId, way }, n) => (
          <polyline
            key={personId}
            points={pointsOf(way)}
            fill="none"
            stroke="var(--edge)"
            strokeWidth="2"
            strokeDasharray={STROKES[n % STROKES.length]}
          />
        ))}
        {map.routes.flatMap(({ personId, way, stops }, n) => [
          way[0] && stops.length > 0 && (
            <rect
              key={`${personId} base`}
              x={way[0].x - 7}
              y={way[0].y - 7}
              width="14"
              height="14"
              fill="var(--ground)"
              stroke="var(--ink)"
              strokeWidth="2"
            />
          ),
          ...stops.map(({ visit, point }, at) => (
            <g key={`${personId} ${visit.id}`}>
              <circle
                cx={point.x}
                cy={point.y}
                r="15"
                fill="var(--ground)"
                stroke="var(--ink)"
                strokeWidth={visit.state === "planned" ? 1.5 : 3}
              />
              <text x={point.x} y={point.y + 5} textAnchor="middle" fontSize="14" fill="var(--ink)">
                {letterOf(n)}
                {at + 1}
              </text>
              <title>{`${visit.label}, ${visit.customer}`}</title>
              {named && <Name point={point} width={width} words={visit.customer} />}
            </g>
          )),
        ])}
        {map.open.map(({ visit, point }) => (
          <g key={visit.id}>
            <path d={`M${point.x} ${point.y - 11}l11 11-11 11-11-11Z`} fill="var(--needs-you)" />
            <title>{`${visit.label}, ${visit.customer}: without a place`}</title>
            {named && <Name point={point} width={width} words={visit.customer} />}
          </g>
        ))}
        <path d={`M20 ${height - 26}v6h${bar.length}v-6`} fill="none" stroke="var(--ink)" strokeWidth="2" />
        <text x={26} y={height - 28} fontSize="15" fill="var(--ink)">
          {bar.km} km
        </text>
      </svg>
      <figcaption className="text-small text-ink-soft">
        Square: where somebody starts. Circle: a visit, thick once it has begun. Diamond: without a place yet.
      </figcaption>
    </figure>
  );
}
