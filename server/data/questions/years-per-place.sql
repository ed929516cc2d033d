-- What boards of a type read at each place, year by year. The year is that of the day the board went back, else of the day
-- it came. Standard SQL; PERCENTILE_CONT is of SQL:2003 (from memory).
WITH
-- Boards that speak for their type: returned, not come back by the word of a later log, each board once, the last time.
speaking AS (
  SELECT shop, log_no, board, in_year
  FROM (
    SELECT j.shop, j.log_no, j.board,
           EXTRACT(YEAR FROM COALESCE(j.returned, j.received)) AS in_year,
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
)
SELECT s.board, p.procedure, p.measure, p.load, p.place, s.in_year,
       COUNT(*) AS boards,
       PERCENTILE_CONT(0.5) WITHIN GROUP (ORDER BY p.read_value) AS median,
       MAX(p.unit) AS unit
FROM speaking AS s
JOIN places AS p ON p.shop = s.shop AND p.log_no = s.log_no
WHERE p.read_value IS NOT NULL AND s.in_year IS NOT NULL
GROUP BY s.board, p.procedure, p.measure, p.load, p.place, s.in_year
ORDER BY 1, 2, 3, 4, 5, 6
