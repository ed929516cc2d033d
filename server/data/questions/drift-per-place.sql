-- Whether what boards read at a place drifts over the years: the median of the slopes between any two boards (Theil-Sen),
-- per year of 365.25 days, with how many pairs rise and fall. The last 400 boards returned of each place count.
--
-- Standard SQL: days are numbers in the tables, since subtracting dates gives another type in every engine.
WITH
-- Boards that speak for their type: returned, not come back by the word of a later log, each board once, the last time.
speaking AS (
  SELECT shop, log_no, board, left_day
  FROM (
    SELECT j.shop, j.log_no, j.board,
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
readings AS (
  SELECT s.board, p.procedure, p.measure, COALESCE(p.load, '') AS load_key, p.place, s.shop, s.log_no, s.left_day,
         p.read_value, p.unit,
         ROW_NUMBER() OVER (
           PARTITION BY s.board, p.procedure, p.measure, COALESCE(p.load, ''), p.place
           ORDER BY s.left_day DESC, s.shop, s.log_no
         ) AS turn
  FROM speaking AS s
  JOIN places AS p ON p.shop = s.shop AND p.log_no = s.log_no
  WHERE p.read_value IS NOT NULL AND s.left_day IS NOT NULL
),
latest AS (SELECT * FROM readings WHERE turn <= 400),
counted AS (
  SELECT board, procedure, measure, load_key, place, COUNT(*) AS boards, MAX(unit) AS unit
  FROM latest
  GROUP BY board, procedure, measure, load_key, place
  HAVING COUNT(*) >= 5
),
slopes AS (
  SELECT a.board, a.procedure, a.measure, a.load_key, a.place,
         (b.read_value - a.read_value) / (b.left_day - a.left_day) AS slope
  FROM latest AS a
  JOIN latest AS b
    ON b.board = a.board AND b.procedure = a.procedure AND b.measure = a.measure AND b.load_key = a.load_key
   AND b.place = a.place AND b.left_day > a.left_day
)
SELECT c.board, c.procedure, c.measure, NULLIF(c.load_key, '') AS load, c.place, c.boards,
       365.25 * PERCENTILE_CONT(0.5) WITHIN GROUP (ORDER BY s.slope) AS slope,
       SUM(CASE WHEN s.slope > 0 THEN 1 ELSE 0 END) AS rising,
       SUM(CASE WHEN s.slope < 0 THEN 1 ELSE 0 END) AS falling,
       c.unit
FROM counted AS c
JOIN slopes AS s
  ON s.board = c.board AND s.procedure = c.procedure AND s.measure = c.measure AND s.load_key = c.load_key
 AND s.place = c.place
GROUP BY c.board, c.procedure, c.measure, c.load_key, c.place, c.boards, c.unit
ORDER BY 1, 2, 3, 4, 5
