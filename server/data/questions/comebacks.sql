-- Jobs whose board had been here before: the earlier job that the log names, else the last one returned on the very same
-- board before this one came. `days` is from its going back to this coming. Job numbers are compared as people type them.
-- A log about several boards comes back board by board; where it names a job on none of them, its first board stands for all.
-- Standard SQL.
WITH numbered AS (
  SELECT j.shop, j.log_no, j.file_no, j.board, e.log_no AS earlier_no, e.file_no AS earlier_file, e.board AS earlier_board,
         ROW_NUMBER() OVER (
           PARTITION BY j.shop, j.log_no, e.file_no
           ORDER BY CASE WHEN e.unit = j.unit THEN 0 WHEN e.board = j.board THEN 1 ELSE 2 END, e.log_no
         ) AS turn
  FROM jobs AS j
  JOIN jobs AS e
    ON e.shop = j.shop AND e.file_no <> j.file_no AND LOWER(TRIM(e.job)) = LOWER(TRIM(j.comeback_of))
  WHERE j.comeback_of IS NOT NULL
),
named AS (
  SELECT n.shop, n.log_no, n.earlier_no, 'named' AS told
  FROM numbered AS n
  WHERE n.turn = 1
    AND (
      n.board = n.earlier_board
      OR (
        n.log_no = n.file_no
        AND NOT EXISTS (
          SELECT 1
          FROM jobs AS a
          JOIN jobs AS b ON b.shop = a.shop AND b.board = a.board
          WHERE a.shop = n.shop AND a.file_no = n.file_no AND b.file_no = n.earlier_file
        )
      )
    )
),
same_board AS (
  SELECT shop, log_no, earlier_no, 'same board' AS told
  FROM (
    SELECT j.shop, j.log_no, e.log_no AS earlier_no,
           ROW_NUMBER() OVER (
             PARTITION BY j.shop, j.log_no
             ORDER BY COALESCE(e.returned_day, e.received_day) DESC NULLS LAST, e.job DESC
           ) AS turn
    FROM jobs AS j
    JOIN jobs AS e ON e.shop = j.shop AND e.unit = j.unit AND e.file_no <> j.file_no
    WHERE j.comeback_of IS NULL
      AND e.job IS NOT NULL
      AND e.stage = 'returned'
      AND (j.received_day IS NULL OR COALESCE(e.returned_day, e.received_day) <= j.received_day)
  ) AS ranked
  WHERE turn = 1
),
pairs AS (SELECT * FROM named UNION ALL SELECT * FROM same_board)
SELECT j.board, j.job, e.job AS earlier, j.received_day - e.returned_day AS days, p.told,
       EXISTS (
         SELECT 1
         FROM symptoms AS a
         JOIN symptoms AS b ON b.shop = a.shop AND b.symptom = a.symptom
         WHERE a.shop = j.shop AND a.log_no = j.log_no AND b.log_no = e.log_no
       ) AS same_symptom
FROM pairs AS p
JOIN jobs AS j ON j.shop = p.shop AND j.log_no = p.log_no
JOIN jobs AS e ON e.shop = p.shop AND e.log_no = p.earlier_no
ORDER BY j.shop, j.log_no, e.log_no
