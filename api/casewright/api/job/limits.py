"""Every limit the service sets on a job, in one place. `GET /v1/limits` publishes this table."""

from dataclasses import dataclass

from casewright.sdk.units import MM


@dataclass(frozen=True, slots=True)
class Limit:
    """One published limit: its name, value, unit (empty for a plain count) and what it bounds."""

    name: str
    value: int
    unit: str
    about: str


BODY_BYTES = 2 * 1024 * 1024
JSON_DEPTH = 40
JSON_DIGITS = 18  # whatever has no more fits into 64 bits
JSON_DECIMAL = 100
TABLE_ROWS = 500
TABLE_COLUMNS = 400
MATERIALS = 100
CABINETS = 500
COPIES = 500
CABINETS_IN_ALL = 500
SPACE_DEPTH = 8
SPACE_ENTRIES = 24
SHARE = 1000
SHELVES = 40
DRAWERS = 12
HINGES = 12
PARTS_IN_ALL = 5000
LOOSE_PARTS = 2000
LOOSE_QUANTITY = 10_000
STUDS = 200
SPOTS = 500
STOCK_PIECES = 500
STOCK_COPIES = 10_000
STOCK_ROWS = 400
CUT_PARTS = 6_000
CUT_DEMANDS = 3_000
GROOVE_CUTTERS = 40
MACHINES = 16
OBSTACLES = 200
READINGS = 200
RATES = 1000
COATS = 20
STEPS = 100_000
BUILT = 500
GREATEST_MONEY = 10**9
CHANGES = 8
RANGES = 12
RANGE_VALUES = 400
ANSWERS = 5
PLACES_TRIED = 3000
DEFECTS = 6
PATCH_OPERATIONS = 100
PATCH_VALUES = 20_000
CURE_TRIES = 60
CURES = 3
CURE_PARTS = 20_000
ID_LENGTH = 40
TITLE_LENGTH = 200
PROBLEMS = 200
EFFORT = 5
BUDGET_SECONDS = 20
WORKER_SECONDS = 30

LEAST_CABINET = 50 * MM
GREATEST_CABINET = 6_000 * MM
LEAST_THICKNESS = MM // 10
GREATEST_THICKNESS = 200 * MM
GREATEST_DETAIL = 1_000 * MM
GREATEST_WALL = 50_000 * MM
GREATEST_STOCK = 15_000 * MM

LIMITS: tuple[Limit, ...] = (
    Limit("body_bytes", BODY_BYTES, "bytes", "size of a request body"),
    Limit("json_depth", JSON_DEPTH, "", "objects and arrays inside one another"),
    Limit("json_digits", JSON_DIGITS, "", "digits of a whole number"),
    Limit("json_decimal", JSON_DECIMAL, "characters", "a number that is not whole"),
    Limit("table_rows", TABLE_ROWS, "", "cabinet rows of a CSV body"),
    Limit("table_columns", TABLE_COLUMNS, "", "columns of a CSV body"),
    Limit("materials", MATERIALS, "", "materials in a job"),
    Limit("cabinets", CABINETS, "", "entries of `cabinets`"),
    Limit("copies", COPIES, "", "`count` of one cabinet"),
    Limit("cabinets_in_all", CABINETS_IN_ALL, "", "cabinets of a job, copies counted"),
    Limit("space_depth", SPACE_DEPTH, "", "divisions of a space inside one another"),
    Limit("space_entries", SPACE_ENTRIES, "", "bays or tiers of one division"),
    Limit("share", SHARE, "", "`share` of a bay or tier"),
    Limit("shelves", SHELVES, "", "fixed or loose shelves of one space"),
    Limit("drawers", DRAWERS, "", "drawers of one space"),
    Limit("hinges", HINGES, "", "`hinges` of a door"),
    Limit("parts_in_all", PARTS_IN_ALL, "", "shelves, dividers and case parts of a job, copies not counted"),
    Limit("loose_parts", LOOSE_PARTS, "", "rows of `loose_parts`"),
    Limit("loose_quantity", LOOSE_QUANTITY, "", "`quantity` of a loose part"),
    Limit("studs", STUDS, "", "studs of a wall"),
    Limit("spots", SPOTS, "", "places of one cabinet on the wall"),
    Limit("obstacles", OBSTACLES, "", "obstacles of a wall"),
    Limit("readings", READINGS, "", "readings of a wall and its floor"),
    Limit("coats", COATS, "", "coats of `finish`"),
    Limit("rates", RATES, "", "hardware prices of a job"),
    Limit("steps", STEPS, "", "entries of `done`, and the number of a step"),
    Limit("built", BUILT, "", "entries of `built`"),
    Limit("ranges", RANGES, "", "ranges of sizes and numbers in a job for a pile"),
    Limit("range_values", RANGE_VALUES, "", "values of one range"),
    Limit("answers", ANSWERS, "", "jobs that a pile is answered with"),
    Limit("places_tried", PLACES_TRIED, "", "places in the ranges that are tried on the stock"),
    Limit("defects", DEFECTS, "", "defects of one piece of stock"),
    Limit("changes", CHANGES, "", "changes compared in one request"),
    Limit("patch_operations", PATCH_OPERATIONS, "", "operations of a JSON Patch"),
    Limit("patch_values", PATCH_VALUES, "", "values that a JSON Patch copies"),
    Limit("cure_tries", CURE_TRIES, "", "changes tried for the cures of one job"),
    Limit("cures", CURES, "", "cures listed for each stop"),
    Limit("cure_parts", CURE_PARTS, "", "parts planned in all the tries of one job; large ones get fewer tries"),
    Limit("stock_pieces", STOCK_PIECES, "", "entries of each list in `stock`"),
    Limit("stock_copies", STOCK_COPIES, "", "`copies` of a piece of stock"),
    Limit("stock_rows", STOCK_ROWS, "", "entries of all lists in `stock` together"),
    Limit("cut_parts", CUT_PARTS, "", "parts cut from stock, each counted"),
    Limit("cut_demands", CUT_DEMANDS, "", "parts cut from stock that differ"),
    Limit("effort", EFFORT, "", "`effort` of the stock planner"),
    Limit("groove_cutters", GROOVE_CUTTERS, "", "entries of `groove_cutters`"),
    Limit("machines", MACHINES, "", "entries of `machines`"),
    Limit("greatest_money", GREATEST_MONEY, "", "a price or a rate, in the job's money"),
    Limit("title_length", TITLE_LENGTH, "characters", "a title"),
    Limit("id_length", ID_LENGTH, "characters", "an id or a material key"),
    Limit("least_cabinet", LEAST_CABINET // MM, "mm", "width, height or depth of a cabinet, at least"),
    Limit("greatest_cabinet", GREATEST_CABINET // MM, "mm", "width, height or depth of a cabinet, at most"),
    Limit("least_thickness", LEAST_THICKNESS // 1000, "µm", "thickness of a material, at least"),
    Limit("greatest_thickness", GREATEST_THICKNESS // MM, "mm", "thickness of a material"),
    Limit("greatest_detail", GREATEST_DETAIL // MM, "mm", "an inset, stile, overlay or other detail"),
    Limit("greatest_wall", GREATEST_WALL // MM, "mm", "length or height of a wall, and places along it"),
    Limit("greatest_stock", GREATEST_STOCK // MM, "mm", "length of a piece of stock"),
    Limit("problems", PROBLEMS, "", "problems listed in one answer"),
    Limit("budget_seconds", BUDGET_SECONDS, "s", "time for one request, as set by default"),
    Limit("worker_seconds", WORKER_SECONDS, "s", "time after which a worker that gives no sign is replaced, likewise"),
)
