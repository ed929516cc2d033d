-- What each meter reads at a place that two meters or more have read: a meter that is off shows here before it shows in
-- the limits. Standard SQL.
WITH
-- Boards that speak for their type: returned, not come back by the word of a later log, each board once, the last time.
speaking AS (
  SELECT shop, log_no, board, meter
  FROM (
    SELECT j.shop, j.log_no, j.board, j.meter,
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
  SELECT s.board, p.procedure, p.measure, COALESCE(p.load, '') AS load_key, p.place, COALESCE(s.meter, '') AS meter_key,
         p.read_value, p.unit
  FROM speaking AS s
  JOIN places AS p ON p.shop = s.shop AND p.log_no = s.log_no
  WHERE p.read_value IS NOT NULL
),
several AS (
  SELECT board, procedure, measure, load_key, place
  FROM readings
  GROUP BY board, procedure, measure, load_key, place
  HAVING COUNT(DISTINCT meter_key) > 1
)
SELECT r.board, r.procedure, r.measure, NULLIF(r.load_key, '') AS load, r.place, NULLIF(r.meter_key, '') AS meter,
       COUNT(*) AS boards,
       PERCENTILE_CONT(0.5) WITHIN GROUP (ORDER BY r.read_value) AS median,
       MAX(r.unit) AS unit
FROM readings AS r
JOIN several AS s
  ON s.board = r.board AND s.procedure = r.procedure AND s.measure = r.measure AND s.load_key = r.load_key
 AND s.place = r.place
GROUP BY r.board, r.procedure, r.measure, r.load_key, r.place, r.meter_key
ORDER BY 1, 2, 3, 4, 5, 6
