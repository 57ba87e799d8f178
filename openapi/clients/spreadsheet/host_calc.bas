' What the module Cabinets needs of LibreOffice Calc: cells, remarks, pictures, print set-up, and HTTP by way of the
' command curl, which answers with the text of a refusal too.

Option Explicit

Const MOST_WRAPPED = 1500 ' rows: longer sheets keep a line a row, as heights of all take minutes; on paper read the workbook

Private Function CellAt(sheet As String, row As Long, column As Long) As Object
    CellAt = ThisComponent.Sheets.getByName(sheet).getCellByPosition(column - 1, row - 1)
End Function

' The text of a cell; a number with a point, whatever the language of the document.
Function HostText(sheet As String, row As Long, column As Long) As String
    Dim cell As Object, text As String
    cell = CellAt(sheet, row, column)
    If cell.Type = com.sun.star.table.CellContentType.VALUE Then
        HostText = Trim(Str(cell.Value))
    Else
        text = Trim(cell.String)
        If InStr(text, ",") > 0 Then text = Pointed(text, DecimalMark())
        HostText = text
    End If
End Function

Private Function DecimalMark() As String
    Dim locale As Object
    locale = createUnoService("com.sun.star.i18n.LocaleData2")
    DecimalMark = locale.getLocaleItem(ThisComponent.CharLocale).decimalSeparator
End Function

Sub HostPut(sheet As String, row As Long, column As Long, text As String, number As Boolean)
    If number Then
        CellAt(sheet, row, column).Value = Val(text)
    Else
        CellAt(sheet, row, column).String = text
    End If
End Sub

' Fill a sheet from a row on: rows of cells, each text or a number.
Sub HostFill(sheet As String, row As Long, rows As Variant)
    Dim width As Long
    width = UBound(rows(0))
    ThisComponent.Sheets.getByName(sheet).getCellRangeByPosition(0, row - 1, width, row - 1 + UBound(rows)).setDataArray(rows)
End Sub

' Pin a remark to a cell, or take it off.
Sub HostRemark(sheet As String, row As Long, column As Long, text As String)
    Dim remarks As Object, place As Object, i As Long
    remarks = ThisComponent.Sheets.getByName(sheet).getAnnotations()
    place = CellAt(sheet, row, column).CellAddress
    For i = remarks.Count - 1 To 0 Step -1
        If remarks.getByIndex(i).Position.Row = row - 1 And remarks.getByIndex(i).Position.Column = column - 1 Then
            remarks.removeByIndex(i)
        End If
    Next i
    If Len(text) > 0 Then remarks.insertNew(place, text)
End Sub

Sub HostEmpty(sheet As String)
    Dim page As Object, i As Long
    ThisComponent.Sheets.getByName(sheet).clearContents(1 + 2 + 4 + 8 + 16)
    ThisComponent.Sheets.getByName(sheet).IsTextWrapped = False ' rows are not made to fit while they are filled
    ThisComponent.Sheets.getByName(sheet).removeAllManualPageBreaks()
    page = ThisComponent.Sheets.getByName(sheet).DrawPage
    For i = page.Count - 1 To 0 Step -1
        If page.getByIndex(i).ShapeType = "com.sun.star.drawing.GraphicObjectShape" Then page.remove(page.getByIndex(i))
    Next i
End Sub

' Put an SVG picture on a sheet, its upper edge that of a row; the number of the first row under it. Its name stands in
' the row above, where a page begins.
Function HostPicture(sheet As String, row As Long, svg As String) As Long
    Dim files As Object, place As String, shape As Object, look(0) As New com.sun.star.beans.PropertyValue
    Dim size As New com.sun.star.awt.Size, corner As New com.sun.star.awt.Point, below As Long
    files = createUnoService("com.sun.star.ucb.SimpleFileAccess")
    place = createUnoService("com.sun.star.util.PathSettings").Temp & "/casewright-" & Int(Rnd * 1000000000) & ".svg"
    WriteText files, place, svg
    look(0).Name = "URL"
    look(0).Value = place
    shape = ThisComponent.createInstance("com.sun.star.drawing.GraphicObjectShape")
    ThisComponent.Sheets.getByName(sheet).DrawPage.add(shape)
    shape.Graphic = createUnoService("com.sun.star.graphic.GraphicProvider").queryGraphic(look())
    files.kill(place)
    size = shape.Graphic.Size100thMM
    corner.X = 0
    corner.Y = CellAt(sheet, row, 1).Position.Y
    shape.Position = corner
    shape.Size = size
    ThisComponent.Sheets.getByName(sheet).Rows.getByIndex(row - 2).IsStartOfNewPage = row > 2
    below = row
    Do While CellAt(sheet, below, 1).Position.Y < corner.Y + size.Height
        below = below + 1
    Loop
    HostPicture = below
End Function

' Print a sheet in landscape, as wide as the paper, its first rows on every page; 0: none of them, a picture a page.
Sub HostPrint(sheet As String, headings As Long)
    Dim rows As New com.sun.star.table.CellRangeAddress, style As Object, used As Object, size As Long
    If headings = 0 Then OwnPages sheet
    style = ThisComponent.StyleFamilies.getByName("PageStyles").getByName(ThisComponent.Sheets.getByName(sheet).PageStyle)
    If Not style.IsLandscape Then
        size = style.Width
        style.IsLandscape = True
        style.Width = style.Height
        style.Height = size
    End If
    style.ScaleToPagesX = 1
    style.ScaleToPagesY = 0
    If headings > 0 Then
        style.PrintGrid = True ' text that fills its column ends where the next begins
        used = ThisComponent.Sheets.getByName(sheet).createCursor()
        used.gotoEndOfUsedArea(True)
        If used.Rows.Count <= MOST_WRAPPED Then
            used.IsTextWrapped = True
            used.VertJustify = com.sun.star.table.CellVertJustify2.TOP
            CellAt(sheet, 1, 1).IsTextWrapped = False ' the warning, which goes on over the cells beside it
            used.Rows.OptimalHeight = True
        End If
        rows.EndRow = headings - 1
        ThisComponent.Sheets.getByName(sheet).setTitleRows(rows)
        ThisComponent.Sheets.getByName(sheet).setPrintTitleRows(True)
    End If
End Sub

' Give a sheet of pictures pages of their size, with room for the row of a name and for printers' edges.
Private Sub OwnPages(sheet As String)
    Dim styles As Object, style As Object, page As Object, i As Long
    styles = ThisComponent.StyleFamilies.getByName("PageStyles")
    If Not styles.hasByName(sheet) Then
        styles.insertByName(sheet, ThisComponent.createInstance("com.sun.star.style.PageStyle"))
    End If
    ThisComponent.Sheets.getByName(sheet).PageStyle = sheet
    style = styles.getByName(sheet)
    style.HeaderIsOn = False
    style.FooterIsOn = False
    style.LeftMargin = 2000
    style.RightMargin = 2000
    style.TopMargin = 1000
    style.BottomMargin = 1000
    page = ThisComponent.Sheets.getByName(sheet).DrawPage
    For i = 0 To page.Count - 1
        If page.getByIndex(i).ShapeType = "com.sun.star.drawing.GraphicObjectShape" Then
            style.IsLandscape = True
            style.Width = page.getByIndex(i).Size.Width
            style.Height = page.getByIndex(i).Size.Height
        End If
    Next i
End Sub

Function HostLetter(code As Long) As String
    HostLetter = Chr(code)
End Function

' Post CSV; status is 0 where there was no answer.
Function HostPost(address As String, body As String, status As Long) As String
    Dim files As Object, folder As String, arguments As String, heads As String
    files = createUnoService("com.sun.star.ucb.SimpleFileAccess")
    folder = createUnoService("com.sun.star.util.PathSettings").Temp & "/casewright-" & Format(Now, "yyyymmddhhnnss") & Int(Rnd * 1000000)
    files.createFolder(folder)
    WriteText files, folder & "/body.csv", body
    arguments = "--silent --show-error --max-time 60 --proto =http,https --header Expect: --header Content-Type:text/csv"
    arguments = arguments & " --data-binary " & Shielded("@" & ConvertFromURL(folder & "/body.csv"))
    arguments = arguments & " --dump-header " & Shielded(ConvertFromURL(folder & "/heads"))
    arguments = arguments & " --output " & Shielded(ConvertFromURL(folder & "/answer"))
    arguments = arguments & " --url " & Shielded(address)
    status = 0
    On Error GoTo Silent
    Shell("curl", 0, arguments, True)
    If files.exists(folder & "/heads") Then
        heads = ReadText(files, folder & "/heads")
        If Left(heads, 5) = "HTTP/" Then status = Val(Mid(heads, InStr(heads, " ") + 1, 3))
        If files.exists(folder & "/answer") Then HostPost = ReadText(files, folder & "/answer")
    End If
    files.kill(folder)
    Exit Function
Silent:
    HostPost = "The command curl could not be run: " & Error$
    files.kill(folder)
End Function

Private Function Shielded(text As String) As String
    Shielded = """" & Replace(text, """", "") & """"
End Function

Private Sub WriteText(files As Object, place As String, text As String)
    Dim out As Object
    out = createUnoService("com.sun.star.io.TextOutputStream")
    out.setOutputStream(files.openFileWrite(place))
    out.setEncoding("UTF-8")
    out.writeString(text)
    out.closeOutput()
End Sub

Private Function ReadText(files As Object, place As String) As String
    Dim source As Object
    source = createUnoService("com.sun.star.io.TextInputStream")
    source.setInputStream(files.openFileRead(place))
    source.setEncoding("UTF-8")
    ReadText = source.readString(Array(), False)
    source.closeInput()
End Function
