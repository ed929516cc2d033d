-- What boards of a type read at each place, with limits: of all revisions (revision null) and of each revision by itself.
--
-- Readings farther than 3.5 robust standard deviations from the median are left out once; of the rest the mean (centre)
-- plus and minus a factor times the standard deviation (spread) holds 95 % of all boards with 95 % confidence. The factor
-- hangs on the number of boards alone and takes an integral that no SQL has: the table `factors` has it. For more boards
-- than stand there the last one is taken, which makes the limits a little wide, never too narrow.
--
-- Standard SQL. PERCENTILE_CONT ... WITHIN GROUP, STDDEV_SAMP and SQRT are of SQL:2003; LEAST and GREATEST are only of
-- SQL:2023 (all from memory), so CASE stands in for them.
WITH
-- Boards that speak for their type: returned, not come back by the word of a later log, each board once, the last time.
speaking AS (
  SELECT shop, log_no, board, revision, left_day
  FROM (
    SELECT j.shop, j.log_no, j.board, j.revision,
           COALESCE(j.returned_day, j.received_day) AS left_day,
           ROW_NUMBER() OVER (
             PARTITION BY j.shop, j.unit
             ORDER BY COALESCE(j.returned_day, j.received_day) DESC NULLS LAST, j.log_no
           ) AS turn
    FROM jobs AS j
    WHERE j.stage = 'returned'
      AND j.board IS NOT NULL
      AND NOT EXISTS (SELECT 1 FROM jobs AS c WHERE c.shop = j.shop AND c.comeback_of = j.job)
  ) AS numbered
  WHERE turn = 1
),
-- Of each revision the 200 returned last.
latest AS (
  SELECT shop, log_no, board, revision
  FROM (
    SELECT shop, log_no, board, revision,
           ROW_NUMBER() OVER (
             PARTITION BY board, revision ORDER BY left_day DESC NULLS LAST, shop, log_no
           ) AS turn
    FROM speaking
  ) AS numbered
  WHERE turn <= 200
),
readings AS (
  SELECT s.board, s.revision, p.procedure, p.measure, COALESCE(p.load, '') AS load_key, p.place,
         p.read_value, p.resolution, p.unit
  FROM latest AS s
  JOIN places AS p ON p.shop = s.shop AND p.log_no = s.log_no
),
-- An empty revision stands for all of them while rows are put together.
grouped AS (
  SELECT board, '' AS of_revision, procedure, measure, load_key, place, read_value, resolution, unit FROM readings
  UNION ALL
  SELECT board, revision, procedure, measure, load_key, place, read_value, resolution, unit FROM readings
  WHERE revision IS NOT NULL AND revision <> ''
),
middle AS (
  SELECT board, of_revision, procedure, measure, load_key, place,
         COUNT(*) AS all_read,
         COUNT(read_value) AS finite_read,
         PERCENTILE_CONT(0.5) WITHIN GROUP (ORDER BY read_value) AS median,
         SQRT(AVG(resolution * resolution) / 12) AS least_spread,
         MAX(unit) AS unit
  FROM grouped
  GROUP BY board, of_revision, procedure, measure, load_key, place
  HAVING COUNT(read_value) >= 5 AND 2 * (COUNT(*) - COUNT(read_value)) < COUNT(*)
),
distances AS (
  SELECT g.board, g.of_revision, g.procedure, g.measure, g.load_key, g.place, g.read_value,
         ABS(g.read_value - m.median) AS distance
  FROM grouped AS g
  JOIN middle AS m
    ON m.board = g.board AND m.of_revision = g.of_revision AND m.procedure = g.procedure
   AND m.measure = g.measure AND m.load_key = g.load_key AND m.place = g.place
  WHERE g.read_value IS NOT NULL
),
-- 1.4826 times the median distance, and where more than half are alike 1.2533 times the mean distance.
robust AS (
  SELECT board, of_revision, procedure, measure, load_key, place,
         1.482602218505602 * PERCENTILE_CONT(0.5) WITHIN GROUP (ORDER BY distance) AS by_median,
         1.2533141373155001 * AVG(distance) AS by_mean
  FROM distances
  GROUP BY board, of_revision, procedure, measure, load_key, place
),
bounds AS (
  SELECT m.*,
         CASE
           WHEN CASE WHEN r.by_median > 0 THEN r.by_median ELSE r.by_mean END > m.least_spread
             THEN CASE WHEN r.by_median > 0 THEN r.by_median ELSE r.by_mean END
           ELSE m.least_spread
         END AS robust_spread
  FROM middle AS m
  JOIN robust AS r
    ON r.board = m.board AND r.of_revision = m.of_revision AND r.procedure = m.procedure
   AND r.measure = m.measure AND r.load_key = m.load_key AND r.place = m.place
),
kept AS (
  SELECT b.board, NULLIF(b.of_revision, '') AS revision, b.procedure, b.measure, NULLIF(b.load_key, '') AS load, b.place,
         COUNT(*) AS boards,
         b.all_read - COUNT(*) AS left_out,
         b.median,
         AVG(d.read_value) AS centre,
         CASE WHEN STDDEV_SAMP(d.read_value) > b.least_spread THEN STDDEV_SAMP(d.read_value) ELSE b.least_spread END AS spread,
         MIN(d.read_value) AS lowest,
         MAX(d.read_value) AS highest,
         b.unit
  FROM bounds AS b
  JOIN distances AS d
    ON d.board = b.board AND d.of_revision = b.of_revision AND d.procedure = b.procedure
   AND d.measure = b.measure AND d.load_key = b.load_key AND d.place = b.place
   AND d.distance <= 3.5 * b.robust_spread
  GROUP BY b.board, b.of_revision, b.procedure, b.measure, b.load_key, b.place, b.all_read, b.median, b.least_spread, b.unit
  HAVING COUNT(*) >= 5
),
factor_of AS (
  SELECT k.boards, MIN(f.factor) AS factor
  FROM (SELECT DISTINCT boards FROM kept) AS k
  JOIN factors AS f ON f.boards <= k.boards
  GROUP BY k.boards
)
-- A limit on the other side of zero from every reading says nothing.
SELECT k.board, k.revision, k.procedure, k.measure, k.load, k.place, k.boards, k.left_out, k.median, k.centre, k.spread,
       CASE WHEN k.centre - f.factor * k.spread < 0 AND k.lowest >= 0 THEN NULL
            ELSE k.centre - f.factor * k.spread END AS low,
       CASE WHEN k.centre + f.factor * k.spread > 0 AND k.highest <= 0 THEN NULL
            ELSE k.centre + f.factor * k.spread END AS high,
       k.unit
FROM kept AS k
JOIN factor_of AS f ON f.boards = k.boards
ORDER BY 1, 3, 4, 5, 6, 2
